import { createServer } from 'node:net'
import { parseArgs } from 'node:util'
import { buildIfNeeded } from './build.mjs'
import { ROOT } from './places.mjs'
import { PlainFailure, say } from './say.mjs'

export const HOST = '127.0.0.1'
const FIRST_PORT = 4173
const PORTS_TRIED = 50

/**
 * @param {number} port
 * @returns {Promise<boolean>}
 */
function isFree(port) {
  return new Promise(resolve => {
    const server = createServer()
    server.once('error', () => resolve(false))
    server.listen({ port, host: HOST }, () => server.close(() => resolve(true)))
  })
}

/**
 * The first port that nobody listens on, counted up from `first`.
 *
 * @param {number} first
 * @returns {Promise<number>}
 */
export async function freePort(first) {
  for (let port = first; port < first + PORTS_TRIED; port += 1) {
    if (await isFree(port)) return port
  }
  throw new PlainFailure(
    `No port between ${first} and ${first + PORTS_TRIED - 1} is free. Name one yourself: npm start -- --port 8080`,
  )
}

/**
 * @param {string[]} args
 * @returns {{ port: number | undefined, open: boolean }}
 */
function readOptions(args) {
  try {
    const { values } = parseArgs({
      args,
      options: { port: { type: 'string' }, open: { type: 'boolean' }, 'no-open': { type: 'boolean' } },
    })
    const port = values.port === undefined ? undefined : Number(values.port)
    if (port !== undefined && !(Number.isInteger(port) && port > 0 && port < 65536))
      throw new Error(`--port takes a number from 1 to 65535, not "${values.port}".`)
    return { port, open: values.open === true && values['no-open'] !== true }
  } catch (error) {
    const told = error instanceof Error ? error.message : String(error)
    throw new PlainFailure(`${told}\nUse: npm start [-- --port NUMBER] [--open]`)
  }
}

/** @param {number | undefined} asked */
async function choosePort(asked) {
  if (asked === undefined) {
    const port = await freePort(FIRST_PORT)
    if (port !== FIRST_PORT) say(`Port ${FIRST_PORT} is in use, so this takes ${port}.`)
    return port
  }
  if (await isFree(asked)) return asked
  throw new PlainFailure(
    `Port ${asked} is in use. Leave --port out to take a free one, or stop the program that has it.`,
  )
}

/**
 * `npm start`: builds what is missing, serves `dist`, prints the address.
 *
 * @param {string[]} args
 */
export async function start(args) {
  const options = readOptions(args)
  if ((await buildIfNeeded()) === 'fresh') say('The build is up to date.')
  const port = await choosePort(options.port)
  process.chdir(ROOT)
  const { preview } = await import('vite')
  const server = await preview({
    logLevel: 'warn',
    preview: { host: HOST, port, strictPort: true, open: options.open },
  })
  process.stdout.write(`Duskcheck is at http://${HOST}:${port}/  (stop it with Ctrl+C)\n`)
  stopOnSignal(() => server.close())
}

/** @param {() => Promise<void>} close */
function stopOnSignal(close) {
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM'])) {
    process.once(signal, () => {
      close().finally(() => process.exit(0))
    })
  }
}

/**
 * `npm run dev`: the app straight from its source, reloading on every edit.
 *
 * @param {string[]} args
 */
export async function dev(args) {
  const options = readOptions(args)
  const port = await choosePort(options.port)
  process.chdir(ROOT)
  const { createServer: createDevServer } = await import('vite')
  const server = await createDevServer({ server: { host: HOST, port, strictPort: true, open: options.open } })
  await server.listen()
  process.stdout.write(`Duskcheck, from source, is at http://${HOST}:${port}/  (stop it with Ctrl+C)\n`)
  stopOnSignal(() => server.close())
}
