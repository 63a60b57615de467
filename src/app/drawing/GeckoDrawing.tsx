/**
 * The gecko as a picture. It is always hidden from assistive technology: whatever it shows is also
 * said in words, and whatever it lets one tap is also a control with a label beside it.
 */
import type { VNode } from 'preact'
import { type GeckoOutline, geckoOutline, type RegionName } from './geckoOutline.ts'
import { type GeckoPose, type GeckoShape, ordinaryGecko } from './geckoShape.ts'

export interface GeckoDrawingProps {
  /** What differs from an ordinary animal. */
  readonly shape?: Partial<GeckoShape>
  /** `resting` curls its tail and fits a phone; `straight` is for comparing widths. */
  readonly pose?: GeckoPose
  /** Head to the left instead of up. */
  readonly sideways?: boolean
  readonly marked?: readonly RegionName[]
  /** Makes these regions react to a tap or click. */
  readonly tappable?: readonly RegionName[]
  readonly onTap?: (region: RegionName) => void
  /** Dashed lines that carry the width of the neck down beside the tail. */
  readonly neckGuides?: boolean
  /** Dashed outline of what lies on the underside. */
  readonly underside?: boolean
}

const underBody: readonly RegionName[] = [
  'region-leg-front-left',
  'region-leg-front-right',
  'region-leg-hind-left',
  'region-leg-hind-right',
  'region-toes-front-left',
  'region-toes-front-right',
  'region-toes-hind-left',
  'region-toes-hind-right',
]
const onBody: readonly RegionName[] = [
  'region-head',
  'region-neck',
  'region-belly',
  'region-back',
  'region-tail-base',
  'region-tail',
  'region-tail-tip',
  'region-mouth',
  'region-nostrils',
  'region-vent',
]
const eyeRegions: readonly RegionName[] = ['region-eye-left', 'region-eye-right']

/** Drawn once for each shape: ticking a box must not measure the animal again. */
const drawn = new Map<string, GeckoOutline>()

function outlineOf(shape: GeckoShape, pose: GeckoPose): GeckoOutline {
  const key = `${pose} ${shape.tailWidth} ${shape.condition}`
  const known = drawn.get(key)
  if (known !== undefined) return known
  const outline = geckoOutline(shape, pose)
  // A few pictures are ever shown; a caller with a sliding width must not fill the memory.
  if (drawn.size >= 24) drawn.clear()
  drawn.set(key, outline)
  return outline
}

export function GeckoDrawing(props: GeckoDrawingProps): VNode {
  const { marked = [], tappable = [], onTap, pose = 'resting', sideways = false } = props
  const outline = outlineOf({ ...ordinaryGecko, ...props.shape }, pose)
  const { x, y, width, height } = outline.viewBox
  const silhouettes = [...outline.limbs, outline.body]

  const region = (name: RegionName): VNode | null => {
    const path = outline.regions[name]
    if (path === undefined) return null
    const canTap = onTap !== undefined && tappable.includes(name)
    const isMarked = marked.includes(name)
    if (!canTap && !isMarked) return null
    return (
      // biome-ignore lint/a11y/noStaticElementInteractions: mirrors the labelled list beside it
      <path
        key={name}
        d={path}
        data-region={name}
        class={`gecko-region${isMarked ? ' gecko-marked' : ''}${canTap ? ' gecko-tappable' : ''}`}
        onClick={canTap ? () => onTap(name) : undefined}
      />
    )
  }

  return (
    <svg
      class={`gecko${sideways ? ' gecko-sideways' : ''}`}
      viewBox={sideways ? `${y} ${-x - width} ${height} ${width}` : `${x} ${y} ${width} ${height}`}
      width={sideways ? height : width}
      height={sideways ? width : height}
      aria-hidden="true"
      focusable="false"
    >
      <g transform={sideways ? 'matrix(0 -1 1 0 0 0)' : undefined}>
        <g class="gecko-edge">
          {silhouettes.map(path => (
            <path key={path} d={path} />
          ))}
        </g>
        <g class="gecko-skin">
          {outline.limbs.map(path => (
            <path key={path} d={path} />
          ))}
        </g>
        {underBody.map(region)}
        <path class="gecko-skin" d={outline.body} />
        <g class="gecko-spots">
          <path d={outline.spots.join('')} />
          <path d={outline.bands.join('')} />
        </g>
        {onBody.map(region)}
        <path class="gecko-eyes" d={outline.eyes.join('')} />
        {eyeRegions.map(region)}
        <g class="gecko-lines">
          <path d={outline.lines.join('')} />
          <path class="gecko-pupils" d={outline.pupils.join('')} />
        </g>
        {props.underside === true ? <path class="gecko-underside" d={outline.underside.join('')} /> : null}
        {props.neckGuides === true ? <path class="gecko-guides" d={outline.neckGuides.join('')} /> : null}
      </g>
    </svg>
  )
}
