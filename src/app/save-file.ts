/** Offers everything kept as a file; it goes nowhere but to where the owner saves it. */
export async function saveFile(exportText: (() => Promise<string>) | undefined): Promise<void> {
  if (!exportText) return
  const address = URL.createObjectURL(new Blob([await exportText()], { type: 'application/json' }))
  const link = document.createElement('a')
  link.href = address
  link.download = 'duskcheck-answers.json'
  link.click()
  // The browser reads it after the click; a minute is more than enough.
  setTimeout(() => URL.revokeObjectURL(address), 60_000)
}
