import { useEffect, useState } from 'preact/hooks'

/** What a promise gave, once it is there; a promise that fails gives nothing. */
export function useArrived<Value>(promise: Promise<Value> | undefined): Value | undefined {
  const [value, setValue] = useState<Value>()
  useEffect(() => {
    promise?.then(setValue).catch(() => {})
  }, [promise])
  return value
}
