import { defineConfig } from 'vitest/config'
import { protocolPlugin } from './src/app/build/protocol-plugin.ts'

export default defineConfig({
  // Preact's JSX, as tsconfig.json has it; said here too so that no plugin is needed.
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'core',
          environment: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**', 'tests/**/*.dom.test.ts'],
          testTimeout: 30_000,
        },
      },
      {
        extends: true,
        plugins: [protocolPlugin()],
        test: {
          name: 'dom',
          environment: 'happy-dom',
          include: ['tests/**/*.dom.test.{ts,tsx}'],
          exclude: ['tests/browser/**'],
        },
      },
    ],
  },
})
