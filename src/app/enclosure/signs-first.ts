/** What is always said of a home: what the animal shows decides. */
export const SIGNS_FIRST = 'A good home does not make a sick animal well. What it shows comes first.'
