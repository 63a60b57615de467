import { defineConfig } from '@playwright/test'
import { findChromium } from './src/cli/chromium.mjs'

const port = Number(process.env.DUSKCHECK_TEST_PORT ?? 4190)
const address = `http://127.0.0.1:${port}/`

const executablePath = findChromium()
// The workers read this file again; they need not search again.
if (executablePath) process.env.DUSKCHECK_CHROMIUM = executablePath

export default defineConfig({
  testDir: 'tests/browser',
  testMatch: '**/*.spec.ts',
  outputDir: 'test-results',
  fullyParallel: true,
  forbidOnly: process.env.CI !== undefined,
  // A real browser on a loaded machine may miss a moment once; the report names what did.
  retries: 1,
  workers: 2,
  timeout: 60_000,
  reporter: [['list'], ['json', { outputFile: '.cache/playwright.json' }]],
  use: {
    baseURL: address,
    screenshot: 'only-on-failure',
    launchOptions: {
      ...(executablePath ? { executablePath } : {}),
      args: [
        '--no-sandbox',
        '--disable-gpu',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
      ],
    },
  },
  projects: [
    { name: 'desktop', use: { viewport: { width: 1280, height: 800 } } },
    {
      name: 'phone',
      use: { viewport: { width: 360, height: 740 }, deviceScaleFactor: 2, isMobile: true, hasTouch: true },
    },
  ],
  webServer: {
    command: `node src/cli/run.mjs start --port ${port} --no-open`,
    url: address,
    reuseExistingServer: false,
    timeout: 180_000,
    stderr: 'pipe',
  },
})
