import { useEffect } from 'preact/hooks'

/** Puts the cursor into a field when `turn` changes: after the app has announced the new screen by its heading. */
export function useFocus(id: string, turn: number): void {
  // biome-ignore lint/correctness/useExhaustiveDependencies: a turn is what asks for it
  useEffect(() => {
    const later = setTimeout(() => document.getElementById(id)?.focus())
    return () => clearTimeout(later)
  }, [turn])
}
