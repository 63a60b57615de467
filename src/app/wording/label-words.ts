/** What the app itself says: names of buttons and headings. Nothing clinical; that comes from content. */

export * from './first-words.ts'
export const exampleNotice = 'This is an example. The animal and its answers are invented.'
export const exampleAnswers = 'The invented answers'
export const exampleOthers = 'Other invented animals'
export const goOn = 'Continue'
export const close = 'Close'
export const cannotMeasure = 'I can’t measure it now'
export const cannotSay = 'I don’t know when'
export const cannotWeigh = 'I can’t weigh it now'
export const signsDone = 'Urgent signs: done.'
export const nowAbout = (concern: string) => `Urgent signs: done. Now: ${concern}`
export const nowGeneral = 'Urgent signs: done. Now a few general questions.'
export const lapsed = (when: string) =>
  `You answered this ${when}. That may have changed, so please look again.`
export const forVet = 'For the page to the vet. It changes nothing above.'
export const skip = 'Skip'
export const chooseOne = 'Choose one line, then press Continue.'
export const tickOne = 'Tick at least one line, then press Continue.'
export const onDate = 'On another day'
export const date = 'Day'
export const reading = 'Your reading'
export const today = 'Weight today'
export const earlier = 'An earlier weight'
export const onRecord = (massGrams: number, when: string) =>
  `On record: ${massGrams} g ${when}. Only today’s weight is asked.`
export const earlierHint = 'Leave it empty if you have none.'
export const earlierDay = 'Day of the earlier weight'
export const reviewTitle = 'Your answers'
export const reviewLink = 'Change answers'
export const reviewEmpty = 'There is no answer yet.'
export const change = 'Change'
export const seen = 'Be seen'
export const by = (when: string) => `by ${when}`
export const soonerIsBetter = 'Sooner is better.'
export const lookAgain = 'Look again'
export const nobodyAnswers = 'Nobody can see it now?'
export const doNow = 'What to do now'
export const firstThenPhone = 'First this, then phone'
export const withScale = 'Once you have a scale'
export const doMeanwhile = 'Until it is seen'
export const doUntilThen = 'What to do until then'
export const doAtHome = 'What to do at home'
export const never = 'Never'
export const moreNevers = (count: number) => `More to keep from (${count})`
export const soonerIf = 'Get help sooner if'
export const phoneAgainIf = 'Phone again at once if'
export const soonerMore = 'Other signs that change this'
export const moreLooks = (count: number) => `Later times to look again (${count})`
export const reasons = 'Why this answer'
export const moreReasons = (count: number) => `Also found (${count})`
export const why = 'Where this comes from'
export const whatItMeans = 'What the sign means'
export const howSoon = 'How soon'
export const conflict = 'Where sources differ'
export const sourceVet = 'Vet books and vet pages'
export const sourcePaper = 'Papers'
export const sourceWelfare = 'Welfare bodies and societies'
export const sourceData = 'Data'
export const sourceKeeper = 'Keepers’ pages, not written by vets'
export const youSaid = 'You said'
export const perhaps = 'You could not tell, so it may be:'
export const notSure = 'you looked and could not tell'
export const notFound = (count: number) => `Looked for and not found (${count})`
export const unknown = (count: number) => `Open, could change this (${count})`
export const noMatter = (count: number) => `Open, changes nothing (${count})`
export const lookedNotSure = 'You looked and could not tell'
export const neverMeasured = 'Not measured'
export const lapsedShort = 'Answered too long ago'
export const notAskedWhy = 'Not asked'
export const notAsked = (count: number) => `Not asked, no need to (${count})`
export const leftOut = (count: number) => `Left out on purpose (${count})`
export const leftOutBecause = 'Left out, because:'
export const leftOutWait = (count: number) => `Waits until a vet has seen it (${count})`
export const otherConcerns = (count: number) => `This also touches (${count})`
export const nobodyTonight = 'If nobody can see it tonight'
export const nobodyToday = 'If nobody can see it today'
export const nobodyLadder = 'Whom to phone, in order'
export const moreCautions = (count: number) => `Cautions for every answer (${count})`
export const more = 'More about this answer'
export const version = (name: string, version: string) => `${name}, version ${version} of this guide.`
export const notReviewed = 'No vet has checked it yet.'
export const reviewedBy = (names: string) => `Checked by ${names}.`
export const print = 'Print'
export const details = 'Add details for the vet'
export const notSettledTitle = 'A few answers are still missing'
export const notSettledLead = 'Some answers are open or too old. There is no result without them.'
export const atLeast = 'At least, by what you told us'
export const weightLost = (now: string, before: string, when: string, percent: string, days: string) =>
  `${now} now against ${before} ${when}: ${percent} less in ${days}.`
export const weightNotFresh = 'The newest weight is old.'
export const explained = (grams: string) => `${grams} of it is explained by what happened in between.`
export const days = (count: number) => (count === 1 ? '1 day' : `${count} days`)
export const hours = (count: number) => (count === 1 ? '1 hour' : `${count} hours`)
export const inHours = (count: number, clock: string) =>
  `in ${count === 1 ? '1 hour' : `${count} hours`}, at ${clock}`
export const dial = (span: string) => `Once round is ${span} from now.`
export const faults = {
  empty: (field: string, accepted: string) => `“${field}” is empty. Accepted: ${accepted}.`,
  number: (field: string, value: string, accepted: string) =>
    `“${field}” cannot be “${value}”. Accepted: ${accepted}.`,
  range: (from: number, to: number, unit: string) => `a number from ${from} to ${to} ${unit}`.trim(),
  plainNumber: 'a number',
  dateAccepted: 'a day up to today',
  dateEarlier: 'a day before today',
}
export const outcomeFrom = (when: string) => `You got this outcome ${when}. Its times count from then.`
export const ownWords = 'Say it in your own words'
export const ownWordsHint = 'A few words are enough. Spelling does not matter.'
export const doorsFit = (count: number) =>
  count === 1 ? '1 place to start fits.' : `${count} places to start fit.`
export const noDoorFits = 'Nothing fits these words. Look through the urgent signs first.'
export const doorsLead = 'Tap one to begin. Does more than one fit? Tick them.'
export const urgentFirst = 'An urgent sign: look at this first.'
export const tickDoor = (door: string) => `Tick: ${door}`
export const tickedDoors = (doors: readonly string[]) => `Ticked: ${doors.join('; ')}.`
export const beginTicked = (count: number) =>
  count === 1 ? 'Begin with the one ticked' : `Begin with the ${count} ticked`
export const byBodyPart = 'Or show where on the body it is'
export const bodyPartLead = 'Tap a place on the drawing or in the list.'
export const bodyPartDoors = (part: string, count: number) =>
  `${part}: ${count === 1 ? '1 place' : `${count} places`} to start.`
export const askAgain = 'Ask again what may have changed'
