/** The start screen as HTML, made at build, so that it is there before any script. */
import renderToString from 'preact-render-to-string'
import type { Frame } from '../../shared/compiled.ts'
import { doorsOf } from './doors.ts'
import { TopBar } from './parts/TopBar.tsx'
import { StartScreen } from './screens/StartScreen.tsx'
import { firstLabels as labels } from './wording/first-labels.ts'

export function renderStart(frame: Frame): string {
  return renderToString(
    <div class="page">
      <TopBar name={labels.appName} homeHref="#start" phoneLabel={labels.phone} phoneHref="#phone" />
      <StartScreen animal={frame.name} trustLine={frame.trustLine} doors={doorsOf(frame)} />
    </div>,
  )
}
