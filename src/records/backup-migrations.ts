/**
 * How a backup file of an older version becomes one of the next: step 1 makes version 2 of version 1, and so on,
 * without gaps. Files only go up. There is one version so far, so there is no step yet.
 */
export type MigrationStep = (file: Readonly<Record<string, unknown>>) => Record<string, unknown>
export type Migrations = Readonly<Record<number, MigrationStep>>

export const MIGRATIONS: Migrations = {}

/**
 * Takes a file from its version to `to`. Undefined where a step is missing; the result says its new version, and its
 * content is not checked here.
 */
export function migrate(
  file: Readonly<Record<string, unknown>>,
  from: number,
  to: number,
  migrations: Migrations = MIGRATIONS,
): Record<string, unknown> | undefined {
  let migrated = { ...file }
  for (let version = from; version < to; version += 1) {
    const step = migrations[version]
    if (!step) return undefined
    migrated = { ...step(migrated), version: version + 1 }
  }
  return migrated
}
