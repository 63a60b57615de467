import type { HtmlTagDescriptor, Plugin } from 'vite'

const VITES_HELPER = '\0vite/preload-helper.js'

/**
 * Tells the browser in the page itself which files the first script needs, so that they come at once with it. What
 * is fetched later is fetched one by one in a fixed order: there Vite's own preloading would be a script for nothing.
 */
export function preloadPlugin(): Plugin {
  return {
    name: 'duskcheck-preload',
    apply: 'build',
    enforce: 'pre',
    load: id => (id === VITES_HELPER ? 'export const __vitePreload = load => load()\n' : undefined),
    transformIndexHtml: {
      order: 'post',
      handler: (_html, { chunk }) =>
        (chunk?.imports ?? []).map(
          (file): HtmlTagDescriptor => ({
            tag: 'link',
            attrs: { rel: 'modulepreload', crossorigin: true, href: `./${file}` },
            injectTo: 'head',
          }),
        ),
    },
  }
}
