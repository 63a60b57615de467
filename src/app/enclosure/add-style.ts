import style from './enclosure.css?url'

let added: Promise<unknown> | undefined

/** The check's own style, fetched once with its screens; resolves when it is there, or is not to be had. */
export function addStyle(): Promise<unknown> {
  added ??= new Promise(resolve => {
    const link = document.createElement('link')
    link.rel = 'stylesheet'
    link.href = style
    link.onload = link.onerror = resolve
    document.head.append(link)
  })
  return added
}
