import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { chromiumPlaces } from '../../src/cli/chromium.mjs'
import { filesBelow, hashOf } from '../../src/cli/steps/build.mjs'
import { closingLine, playwrightCounts, vitestCounts } from '../../src/cli/steps/counts.mjs'
import { adviceFor, whyInstall } from '../../src/cli/steps/install.mjs'
import { nodeProblem } from '../../src/cli/steps/node-version.mjs'
import { inProject } from '../../src/cli/steps/places.mjs'
import { sizeOf } from '../../src/cli/steps/size.mjs'
import { freePort } from '../../src/cli/steps/start.mjs'
import { choose, STEPS } from '../../src/cli/steps/test.mjs'

describe('the Node version', () => {
  test.each(['20.19.0', '20.20.2', '22.12.0', '23.0.0', '24.1.0'])('%s is new enough', version => {
    expect(nodeProblem(version)).toBe('')
  })

  test.each(['16.20.0', '18.20.0', '20.18.9', '21.7.0', '22.11.0'])('%s is refused in words', version => {
    expect(nodeProblem(version)).toContain('20.19 or newer')
    expect(nodeProblem(version)).toContain(version)
  })
})

describe('whether packages must be installed', () => {
  const wanted = {
    packages: {
      '': {},
      'node_modules/a': { version: '1.0.0', integrity: 'x' },
      'node_modules/@s/b': { version: '2.0.0', integrity: 'y' },
      'node_modules/only-on-windows': { version: '1.0.0', integrity: 'z', optional: true },
    },
  }
  const { 'node_modules/only-on-windows': _, ...installed } = wanted.packages

  test('not when all but optional packages are there', () => {
    expect(whyInstall(wanted, { packages: installed })).toBe('')
  })

  test('when there is no record of an install', () => {
    expect(whyInstall(wanted, undefined)).toBe('nothing is installed yet')
  })

  test('when a package is missing', () => {
    const { 'node_modules/@s/b': _gone, ...fewer } = installed
    expect(whyInstall(wanted, { packages: fewer })).toBe('@s/b is missing')
  })

  test('when a package has another version', () => {
    const other = { ...installed, 'node_modules/a': { version: '0.9.0', integrity: 'x' } }
    expect(whyInstall(wanted, { packages: other })).toBe('a is 0.9.0, not 1.0.0')
  })

  test('when a package has other contents', () => {
    const other = { ...installed, 'node_modules/a': { version: '1.0.0', integrity: 'q' } }
    expect(whyInstall(wanted, { packages: other })).toContain('not the file')
  })

  test('an optional package of another version counts', () => {
    const other = { ...installed, 'node_modules/only-on-windows': { version: '3.0.0', integrity: 'z' } }
    expect(whyInstall(wanted, { packages: other })).toContain('only-on-windows')
  })
})

test.each([
  ['npm error code ENOTFOUND', 'network'],
  ['npm error code EUSAGE', 'package-lock.json'],
  ['npm error code EACCES', 'belongs to you'],
  ['npm error code ENOSPC', 'disk'],
  ['Unknown option', 'older than version 7'],
])('a failed install with "%s" gets advice on "%s"', (printed, advice) => {
  expect(adviceFor(printed)).toContain(advice)
})

describe('the closing line', () => {
  test('adds up both kinds of report', () => {
    const unit = vitestCounts({ numPassedTests: 5, numFailedTests: 1 })
    const browser = playwrightCounts({ stats: { expected: 2, flaky: 1, unexpected: 2 } })
    expect(closingLine([unit, browser], true)).toBe('8 passed, 3 failed')
  })

  test('never reads "0 failed" when a step without tests ended badly', () => {
    expect(closingLine([], true)).toBe('0 passed, 1 failed')
  })

  test('counts nothing in a report that is missing', () => {
    expect(closingLine([vitestCounts({}), playwrightCounts({})], false)).toBe('0 passed, 0 failed')
  })
})

describe('the steps of npm test', () => {
  test('all run when none is named', () => {
    expect(choose([]).steps).toBe(STEPS)
  })

  test('a named one runs alone, with what follows its name', () => {
    const { steps, rest } = choose(['unit', 'tests/cli'])
    expect(steps.map(step => step.id)).toEqual(['unit'])
    expect(rest).toEqual(['tests/cli'])
  })

  test('a wrong name is told with the right ones', () => {
    expect(() => choose(['units'])).toThrow(/"units" is no step. The steps: lint, types/)
  })
})

describe('the hash over what a build is made from', () => {
  function folderWith(files: Record<string, string>): string {
    const folder = mkdtempSync(join(tmpdir(), 'duskcheck-hash-'))
    for (const [name, text] of Object.entries(files)) {
      mkdirSync(join(folder, name, '..'), { recursive: true })
      writeFileSync(join(folder, name), text)
    }
    return folder
  }

  function hashThenRemove(files: Record<string, string>): string {
    const folder = folderWith(files)
    try {
      return hashOf(filesBelow(folder), folder)
    } finally {
      rmSync(folder, { recursive: true })
    }
  }

  const files = { 'a.yaml': 'x', 'b/c.ts': 'y' }

  test('is the same for the same files in another place', () => {
    expect(hashThenRemove(files)).toBe(hashThenRemove(files))
  })

  test.each([
    ['a content', { ...files, 'a.yaml': 'z' }],
    ['a name', { 'a2.yaml': 'x', 'b/c.ts': 'y' }],
    ['one more file', { ...files, 'd.ts': '' }],
  ])('changes with %s', (_what, others) => {
    expect(hashThenRemove(others)).not.toBe(hashThenRemove(files))
  })

  test('a folder that is not there has no files', () => {
    expect(filesBelow(join(tmpdir(), 'duskcheck-not-there'))).toEqual([])
  })
})

test('the sizes of a file are those a host would send', () => {
  const size = sizeOf('a.js', Buffer.from('x'.repeat(1000)))
  expect(size.bytes).toBe(1000)
  expect(size.brotli).toBeLessThan(100)
})

test('a port in use is passed over', async () => {
  const server = createServer()
  const port = await new Promise<number>(resolve => {
    server.listen({ port: 0, host: '127.0.0.1' }, () => {
      const address = server.address()
      resolve(typeof address === 'object' && address ? address.port : 0)
    })
  })
  try {
    expect(await freePort(port)).toBeGreaterThan(port)
  } finally {
    server.close()
  }
})

describe('where a Chromium is looked for', () => {
  test('first on the PATH', () => {
    expect(chromiumPlaces('linux', { PATH: '/x/bin' })[0]).toBe(join('/x/bin', 'chromium'))
  })

  test('in the folders of applications on macOS', () => {
    expect(chromiumPlaces('darwin', {})).toContain(
      '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
    )
  })

  test('in the program folders on Windows', () => {
    expect(chromiumPlaces('win32', { ProgramFiles: 'C:\\Program Files' })).toContain(
      'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
    )
  })
})

test('a command that does not exist ends with 2, the list on stderr and nothing on stdout', () => {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [inProject('src', 'cli', 'run.mjs'), 'asess'],
    {
      encoding: 'utf8',
    },
  )
  expect(status).toBe(2)
  expect(stdout).toBe('')
  expect(stderr).toContain('There is no command "asess"')
  expect(stderr).toContain('npm run assess')
})

test('a wrong port is told in words', () => {
  const { status, stderr } = spawnSync(
    process.execPath,
    [inProject('src', 'cli', 'run.mjs'), 'start', '--port', 'x'],
    {
      encoding: 'utf8',
    },
  )
  expect(status).toBe(1)
  expect(stderr).toContain('--port takes a number')
  expect(stderr).not.toContain('    at ')
})
