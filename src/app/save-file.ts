/** Hands a text to the person as a file; it goes nowhere but to where they save it. */
export function saveFile(name: string, type: string, text: string): void {
  const link = document.createElement('a')
  link.href = URL.createObjectURL(new Blob([text], { type }))
  link.download = name
  link.click()
  // The browser reads it after the click; a minute is more than enough.
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000)
}
