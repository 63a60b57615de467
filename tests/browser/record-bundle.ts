export * as actions from '../../src/records/actions.ts'
export { openKeeperStore } from '../../src/records/keeper-store.ts'
export { backupText } from '../../src/records/write-backup.ts'
