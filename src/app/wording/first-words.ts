/** What the app says on its first screens, up to the danger signs; the first load carries no other labels. */

export const appName = 'Duskcheck'
export const phone = 'Phone a vet'
export const phoneTitle = 'Whom to phone'
export const phoneLine = 'You need no answer from this page to phone a vet.'
export const startTitle = 'What do you see right now?'
export const startLead = 'First, signs that need a vet soon.'
export const startConcerns = 'Something else? What worries you?'
export const startSeveral = 'More than one of these, or not sure'
export const startSeveralHint = 'You choose after the urgent signs.'
export const startOther = 'Another animal, or not sure which?'
export const startOtherHint = (animal: string) => `This guide knows one animal: ${animal.toLowerCase()}.`
export const resumeTitle = 'Go on where you stopped'
export const resumeHint = (count: number) =>
  `${count === 1 ? '1 answer is' : `${count} answers are`} kept on this device.`
export const dropped = (count: number) =>
  `This guide is newer: ${count === 1 ? '1 answer does' : `${count} answers do`} not fit any more and will be asked again.`
export const lastTitle = 'Look at the last outcome'
export const lastHint = (when: string) => `You got it ${when}. It is kept on this device.`
export const anewTitle = 'Go on, or begin anew?'
export const anewLead = (count: number) =>
  `A check with ${count === 1 ? '1 answer' : `${count} answers`} is not finished.`
export const anewKept = 'If you begin anew, its answers stay here until you delete them.'
export const anewGoOn = 'Go on with it'
export const anewBegin = 'Begin anew'
export const deleteLink = 'Delete my answers'
export const deleteHint = 'All that this page keeps of your checks on this device.'
export const deleteTitle = 'Delete your answers?'
export const deleteLead =
  'Every check kept on this device goes, with its outcome. This cannot be undone. The record of your animals is kept: it is deleted on its own pages.'
export const deleteYes = 'Delete them'
export const deleteNo = 'Keep them'
export const deleteFailed = 'This browser did not delete them. Clear the data of this page in its settings.'
export const recordTitle = 'Your animals'
export const recordHint = 'Weights over time, for each animal you keep.'
export const enclosureTitle = 'Is my enclosure right?'
export const enclosureHint = 'Warmth, air, light and food, with what to put right.'
export const exampleTitle = 'Try it with invented animals'
export const exampleHint = 'A finished check, with data that are made up.'
export const back = 'Back'
export const wait = 'One moment, the words are still on their way.'
export const noneOfThese = 'None of these'
export const thisIsWhatISee = 'This is what I see'
export const cannotTell = 'I looked and can’t tell'
export const cannotTellRest = 'Can’t tell the rest'
export const notLooked = 'I have not looked yet: show me how'
export const pageWaits = 'Take your time. This page waits.'
export const tickAll = 'Tick all that fit.'
export const signsPage = (page: number, pages: number) => `Urgent signs, page ${page} of ${pages}`
export const notSaved =
  'This browser does not keep your answers at the moment. They last until this page is closed.'
export const saveFile = 'Save my answers as a file'
export const lines = (count: number) => `${count} lines, then the buttons.`
export const lookFirst = 'I can’t tell'
export const stillCannotTell = 'I looked, still can’t tell'
export const stillCannotTellRest = 'I looked, can’t tell the rest'
export const lookFirstLead = 'Look once like this. Then answer.'
