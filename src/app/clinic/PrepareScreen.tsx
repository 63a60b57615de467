/** Prepare for the vet: what to say, bring and ask, and the page that goes with it, exactly as it is sent. */
import type { VNode } from 'preact'
import { useEffect, useMemo, useState } from 'preact/hooks'
import type { Clinic } from '../../../shared/clinic.ts'
import { HANDOVER_PARTS, type Handover, type HandoverPart } from '../../../shared/handover.ts'
import { type HandoverSource, handoverDocument, openHistory } from '../../handover/document.ts'
import { fhirBundle } from '../../handover/fhir.ts'
import { encodeLink } from '../../handover/link/codec.ts'
import { HISTORY_LINK } from '../../handover/links.ts'
import { sayOnTelephone } from '../../handover/say.ts'
import { PART_WORDS, textPage } from '../../handover/text-page.ts'
import { Disclosure } from '../parts/Disclosure.tsx'
import { Input, Page, Tick } from '../record/parts.tsx'
import { saveFile } from '../save-file.ts'
import { HistoryPage } from './HistoryPage.tsx'
import { keepHistory, keptHistory } from './kept.ts'
import { addressOf, CopyText } from './parts.tsx'

export interface PrepareScreenProps {
  readonly source: HandoverSource
  /** What names the case, so that answers of another one are not shown. */
  readonly caseName: string
  readonly clinic: Clinic | undefined
  readonly onBack: () => void
}

/** The link of a history, once it is made. */
function useLink(history: Handover): string | undefined {
  const [link, setLink] = useState<string>()
  useEffect(() => {
    let stands = true
    setLink(undefined)
    encodeLink(HISTORY_LINK, history)
      .then(data => stands && setLink(addressOf(`#history/${data}`)))
      .catch(() => {})
    return () => {
      stands = false
    }
  }, [history])
  return link
}

export function PrepareScreen({ source, caseName, clinic, onBack }: PrepareScreenProps): VNode {
  const { content, assessment } = source
  const [answers, setAnswers] = useState(() => keptHistory(caseName))
  const [leaveOut, setLeaveOut] = useState<readonly HandoverPart[]>([])
  const history = useMemo(
    () => handoverDocument({ ...source, history: answers, leaveOut }),
    [source, answers, leaveOut],
  )
  // The list stays as it was opened: a field must not vanish while it is typed in.
  const asked = useMemo(() => openHistory({ content, caseFile: source.caseFile }), [content, source])
  const set = (id: string) => (value: string) => {
    const next = { ...answers, [id]: value }
    keepHistory(caseName, next)
    setAnswers(next)
  }
  return (
    <Page title="Prepare for the vet" back={{ label: 'Back', onPress: onBack }} wide>
      <section class="section no-print">
        <h2 class="section-title">Say this on the phone</h2>
        <p class="say">{sayOnTelephone(history, content.say[assessment.urgency ?? 'now'])}</p>
      </section>
      <section class="section no-print">
        <h2 class="section-title">Bring</h2>
        <ul>
          {content.bring.map(({ text }) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      </section>
      <section class="section no-print">
        <h2 class="section-title">On the way</h2>
        <ul>
          {content.travel.map(({ text }) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      </section>
      <div class="no-print">
        <Disclosure summary={`Questions vets ask (${asked.length}), each may stay empty`}>
          {asked.map(({ id, ask }) => (
            <Input
              key={id}
              name={`history-${id}`}
              kind="text"
              label={ask}
              value={answers[id] ?? ''}
              onInput={set(id)}
            />
          ))}
        </Disclosure>
        <Disclosure summary="Leave something out">
          {HANDOVER_PARTS.map(part => (
            <Tick
              key={part}
              words={`Leave out ${PART_WORDS[part]}`}
              on={leaveOut.includes(part)}
              onChange={on =>
                setLeaveOut(HANDOVER_PARTS.filter(one => (one === part ? on : leaveOut.includes(one))))
              }
            />
          ))}
        </Disclosure>
      </div>
      <h2 class="section-title no-print">This is what the clinic gets</h2>
      <p class="no-print">
        Nothing is sent until you send it yourself{clinic ? `, to ${clinic.name} or to anyone else` : ''}.
      </p>
      <HistoryPage history={history} />
      <Sharing history={history} />
    </Page>
  )
}

/** Ways to send what is shown above; each is a thing the owner does. */
function Sharing({ history }: { readonly history: Handover }): VNode {
  const link = useLink(history)
  const fits = link !== undefined && link.length <= HISTORY_LINK.mostCharacters
  return (
    <section class="section no-print">
      <h2 class="section-title">Send or print it</h2>
      <p class="outcome-links">
        <button class="action" type="button" onClick={() => globalThis.print()}>
          Print or save as PDF
        </button>
        <button
          class="action"
          type="button"
          onClick={() => saveFile('history.json', 'application/json', JSON.stringify(history, null, 2))}
        >
          Save as file
        </button>
        <button
          class="action"
          type="button"
          onClick={() =>
            saveFile(
              'history-fhir.json',
              'application/fhir+json',
              JSON.stringify(fhirBundle(history), null, 2),
            )
          }
        >
          Save as FHIR file
        </button>
      </p>
      <CopyText id="history-text" label="As text, for an e-mail" text={textPage(history)} />
      {link !== undefined && !fits ? (
        <p>The link would be {link.length} characters long. That is too long, so save the file.</p>
      ) : (
        <CopyText
          id="history-link"
          label={
            link === undefined ? 'As a link' : `As a link of ${link.length} characters, all data inside it`
          }
          text={link ?? ''}
        />
      )}
      <p class="fact-known">
        Whoever has the link can read all of it. It works without a server and does not expire.
      </p>
    </section>
  )
}
