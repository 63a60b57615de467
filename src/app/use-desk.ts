import { useEffect, useState } from 'preact/hooks'

/** Desk work that is on its way, is there, or could not be fetched. */
export type Fetched<Part> = { readonly part?: Part; readonly words?: string }

/**
 * Fetches the code of desk work (a whole shelf, files and tables taken in) when its screen is opened, so that nobody
 * with one sick animal loads it. What is fetched tells that the screen was opened, and no answer.
 *
 * @param load one and the same function at every drawing
 * @returns the code once it is there; until then what to say
 */
export function useDesk<Part>(load: () => Promise<Part>): Fetched<Part> {
  const [fetched, setFetched] = useState<Fetched<Part>>({ words: 'One moment.' })
  useEffect(() => {
    load().then(
      part => setFetched({ part }),
      () => setFetched({ words: 'This part did not come. Look at the network, then load the page again.' }),
    )
  }, [load])
  return fetched
}
