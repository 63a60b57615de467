/** The compiled protocol as the build serves it (src/app/build/protocol-plugin.ts). */

declare module 'virtual:protocol/logic' {
  const logic: import('../../../shared/compiled.ts').Logic
  export default logic
}

/** What the first screens need, and no more. */
declare module 'virtual:protocol/first' {
  const first: import('./first.ts').FirstContent
  export default first
}

/** The whole frame, and the words of the danger signs with those of the concern question. */
declare module 'virtual:protocol/frame' {
  const frame: Pick<import('../../../shared/compiled.ts').CompiledProtocol, 'frame' | 'dangerWords'>
  export default frame
}

declare module 'virtual:protocol/common' {
  const commonWords: import('../../../shared/compiled.ts').Words
  export default commonWords
}

declare module 'virtual:protocol/concerns' {
  /** The words of every concern, fetched one after the other in the protocol's order. */
  export function loadConcernWords(): Promise<Record<string, import('../../../shared/compiled.ts').Words>>
}

/** The evidence rows that rules cite, and the sources that those rows cite. */
declare module 'virtual:protocol/evidence' {
  const cited: Pick<import('../../../shared/compiled.ts').CompiledProtocol, 'evidence' | 'sources'>
  export default cited
}

/** Care plans and what rules say of them: the first load decides without. */
declare module 'virtual:protocol/care' {
  const care: import('../../../shared/compiled.ts').CareOfLogic
  export default care
}

/** The check of enclosure and feeding, logic and words; loaded only by its own screens. */
declare module 'virtual:protocol/enclosure' {
  const enclosure: import('../../../shared/enclosure.ts').CompiledEnclosure
  export default enclosure
}

/** How weight records are read over time: for the screens of the record only. */
declare module 'virtual:protocol/weights' {
  const weights: import('../../../shared/weights.ts').WeightsContent
  export default weights
}

/** What a clinic receives, and what history forms ask: for the clinic's screens only. */
declare module 'virtual:protocol/handover' {
  const handover: import('../../../shared/handover-content.ts').HandoverContent
  export default handover
}

/** How owners say it, for the search on the start page: fetched after the first paint. */
declare module 'virtual:protocol/search' {
  const vocabulary: import('../../../shared/search.ts').SearchWords
  export default vocabulary
}
