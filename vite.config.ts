import preact from '@preact/preset-vite'
import { defineConfig } from 'vite'
import { offlinePlugin } from './src/app/build/offline-plugin.ts'
import { HEADERS, policyPlugin } from './src/app/build/policy.ts'
import { prerenderPlugin } from './src/app/build/prerender-plugin.ts'
import { protocolPlugin } from './src/app/build/protocol-plugin.ts'

export default defineConfig({
  root: 'src/app',
  // Relative, so that the build works in any folder of any host.
  base: './',
  plugins: [preact(), protocolPlugin(), prerenderPlugin(), policyPlugin(), offlinePlugin()],
  build: {
    outDir: '../../dist',
    emptyOutDir: true,
    target: 'es2022',
    // The policy allows no inline script and no data: address but pictures.
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    rolldownOptions: {
      output: {
        // What the tool knows can be told from what it does by the file's name.
        chunkFileNames: ({ facadeModuleId }) =>
          facadeModuleId?.includes('virtual:protocol/')
            ? 'assets/content-[name]-[hash].js'
            : 'assets/[name]-[hash].js',
      },
    },
    chunkSizeWarningLimit: 400,
  },
  preview: { headers: HEADERS },
})
