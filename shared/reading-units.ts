/** The units a reading may be given in. A module of its own: screens need the names without the schemas. */
export const READING_UNIT_NAMES = [
  'celsius',
  'fahrenheit',
  'percent',
  'centimetres',
  'inches',
  'hours',
  'days',
  'uv-index',
] as const
export type ReadingUnit = (typeof READING_UNIT_NAMES)[number]
