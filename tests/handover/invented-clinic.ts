import type { Clinic } from '../../shared/clinic.ts'

/** An invented clinic; its numbers are from the range kept for drama (01632 960xxx). */
export const INVENTED_CLINIC: Clinic = {
  name: 'Invented Reptile Clinic',
  telephone: '01632 960123',
  outOfHours: { name: 'Invented Night Clinic', telephone: '+44 1632 960199' },
  zone: 'Europe/London',
  weeklyHours: [
    { day: 'monday', from: '09:00', to: '18:30' },
    { day: 'tuesday', from: '09:00', to: '13:00' },
    { day: 'tuesday', from: '14:00', to: '18:30' },
    { day: 'wednesday', from: '09:00', to: '18:30' },
    { day: 'friday', from: '20:00', to: '02:00' },
    { day: 'saturday', from: '00:00', to: '24:00' },
  ],
  holidays: [
    { from: '2026-12-24', to: '2026-12-26', spans: [] },
    { from: '2026-12-28', to: '2026-12-28', spans: [{ from: '10:00', to: '12:00' }] },
  ],
  address: '1 Invented Street, Nowhere',
  webPage: 'https://clinic.example/reptiles',
  speciesSeen: 'Geckos, bearded dragons, snakes',
  greeting: ['Thank you for booking.', 'Please fill this in before you come.'],
  raised: [{ concern: 'humming', to: 'day' }],
}
