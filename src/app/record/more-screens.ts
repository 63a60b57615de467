/** What is not on the way from an animal to its next weight: fetched when one of these screens is opened. */
export { AboutScreen } from './AboutScreen.tsx'
export { DeleteScreen } from './DeleteScreen.tsx'
export { KeepScreen } from './KeepScreen.tsx'
export { LookScreen } from './LookScreen.tsx'
export { NotebookScreen } from './NotebookScreen.tsx'
export { PastScreen } from './PastScreen.tsx'
export { ShelfScreen } from './ShelfScreen.tsx'
