/** Each word stands as an export of its own, so that the build can shorten its name. */
export * as firstLabels from './first-words.ts'
