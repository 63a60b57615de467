/** The start page at work: what each door does, and what becomes of a case that was begun before. */
import type { VNode } from 'preact'
import type { Moment } from '../../shared/moment.ts'
import type { Told } from '../wizard/log.ts'
import type { FirstContent } from './content/first.ts'
import type { Rest, Search } from './content/later.ts'
import type { Doors } from './doors.ts'
import { AskScreen } from './screens/AskScreen.tsx'
import { StartScreen } from './screens/StartScreen.tsx'
import type { Wizard } from './use-wizard.ts'
import { firstLabels as labels } from './wording/first-labels.ts'

/** What a door begins. */
export interface Begun {
  readonly told: Told
  readonly question?: string
}

export interface StartProps {
  readonly first: FirstContent
  readonly doors: Doors
  readonly wizard: Wizard
  readonly clock: () => Moment
  readonly locale: string
  readonly screens: Rest['screens'] | undefined
  readonly search: Search | undefined
  /** A door that was taken while another case is not finished, to be asked about. */
  readonly asked: Begun | undefined
  readonly onAsk: (begun: Begun) => void
  readonly onLeave: () => void
}

export function Start(props: StartProps): VNode {
  const { first, wizard, screens, search, asked, onLeave } = props
  const { log: here, now } = wizard.context
  // A case of this visit goes before one that was found.
  const found = here.length > 0 ? undefined : wizard.earlier
  const log = found?.log ?? here
  const { thisAnimal, concernQuestion } = first.part
  // What a door said of the animal and the worry is no answer that anybody gave to a question.
  const given = log.filter(
    ({ question }) => question !== thisAnimal?.question && question !== concernQuestion,
  ).length
  const outcomeAt = found ? found.outcomeAt : wizard.place.at === 'outcome' ? now.instant : undefined
  const goOn = () => (found ? void wizard.takeUp(found) : onLeave())

  if (asked)
    return (
      <AskScreen
        title={labels.anewTitle}
        lines={[labels.anewLead(given), labels.anewKept]}
        yes={labels.anewBegin}
        no={labels.anewGoOn}
        onYes={async () => {
          await wizard.begin(asked.told, asked.question)
          return true
        }}
        onNo={goOn}
      />
    )

  const earlier = () => {
    // A case that was found can be gone on with once the chart is there.
    if (given === 0 || (found && !screens)) return {}
    const dropped = found?.dropped ?? 0
    const hint =
      outcomeAt === undefined
        ? [labels.resumeHint(given), ...(dropped > 0 ? [labels.dropped(dropped)] : [])].join(' ')
        : labels.lastHint(screens?.whenWords(outcomeAt, props.clock(), props.locale) ?? '')
    const label = outcomeAt === undefined ? labels.resumeTitle : labels.lastTitle
    return { earlier: { label, hint, onOpen: goOn } }
  }
  const begin = (told: Told, question?: string) => {
    if (given > 0 && outcomeAt === undefined)
      props.onAsk({ told, ...(question === undefined ? {} : { question }) })
    else void wizard.begin(told, question)
  }
  const onSign = (screen: string) => begin({ thisAnimal: true }, screen)
  const beginWith = (concerns: readonly string[]) => begin({ thisAnimal: true, concerns })
  return (
    <StartScreen
      animal={first.frame.name}
      trustLine={first.frame.trustLine}
      doors={props.doors}
      {...(screens ? { picture: <screens.GeckoDrawing /> } : {})}
      onSign={onSign}
      onConcern={concern => beginWith([concern])}
      {...(screens && search
        ? {
            search: (
              <screens.StartSearch doors={props.doors} {...search} onSign={onSign} onConcerns={beginWith} />
            ),
          }
        : {})}
      onSeveral={() => begin({ thisAnimal: true })}
      onOther={() => begin({ thisAnimal: false })}
      {...earlier()}
      {...(log.length > 0 ? { deleteHref: '#delete' } : {})}
    />
  )
}
