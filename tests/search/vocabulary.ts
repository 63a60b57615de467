import { join } from 'node:path'
import { loadProtocol } from '../../src/protocol/load.ts'
import { loadSearchWords } from '../../src/protocol/search-words.ts'

const folder = join(import.meta.dirname, '../../content')
const loaded = loadProtocol(folder, 'leopard-gecko')
if (!loaded.ok) throw new Error(`The content does not load: ${JSON.stringify(loaded.faults.slice(0, 5))}`)

/** The protocol of the published content, and how owners say it. */
export const protocol = loaded.compilation.protocol
const words = loadSearchWords(folder, 'leopard-gecko', protocol.frame)
if (!words.ok || !words.searchWords)
  throw new Error(`The words of the search do not load: ${JSON.stringify(words)}`)
export const vocabulary = words.searchWords
