/** One fault in the content, at a place a person can open. */
export interface ContentFault {
  readonly file: string
  readonly line: number
  readonly column: number
  readonly message: string
}

/** `file:line:column message`, as editors understand it. */
export function faultLine(fault: ContentFault): string {
  return `${fault.file}:${fault.line}:${fault.column} ${fault.message}`
}
