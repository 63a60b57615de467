import preact from '@preact/preset-vite'
import { defineConfig } from 'vite'
import { chunkFileNames, ownersChunks } from './src/app/build/chunks.ts'
import { offlinePlugin } from './src/app/build/offline-plugin.ts'
import { HEADERS, policyPlugin } from './src/app/build/policy.ts'
import { preloadPlugin } from './src/app/build/preload-plugin.ts'
import { prerenderPlugin } from './src/app/build/prerender-plugin.ts'
import { protocolPlugin } from './src/app/build/protocol-plugin.ts'
import { shapesPlugin } from './src/app/build/shapes-plugin.ts'

export default defineConfig({
  root: 'src/app',
  // Relative, so that the build works in any folder of any host.
  base: './',
  plugins: [
    preact(),
    protocolPlugin(),
    shapesPlugin(),
    prerenderPlugin(),
    preloadPlugin(),
    policyPlugin(),
    offlinePlugin(),
  ],
  build: {
    outDir: '../../dist',
    emptyOutDir: true,
    target: 'es2022',
    // src/app/build/preload-plugin.ts does what is needed of it.
    modulePreload: false,
    // The policy allows no data: address but pictures.
    assetsInlineLimit: 0,
    rolldownOptions: {
      output: {
        // The words of the first load stand in a file of their own, so that they are measured as content.
        codeSplitting: {
          includeDependenciesRecursively: false,
          groups: [
            { name: 'content-first', test: /virtual:protocol\/first$/ },
            { name: 'content-weights', test: /virtual:protocol\/weights$/ },
            { name: 'content-enclosure', test: /virtual:protocol\/enclosure$/ },
            { name: ownersChunks(), debugName: 'owner' },
          ],
        },
        chunkFileNames,
      },
    },
    chunkSizeWarningLimit: 400,
  },
  // A worker is desk work: it is fetched when a file is read.
  worker: { rolldownOptions: { output: { entryFileNames: 'assets/desk-[name]-[hash].js' } } },
  preview: { headers: HEADERS },
})
