/**
 * Says in one sentence why this Node cannot run the project, or gives '' when it can. The limits are those
 * of the build tool (20.19 and later of 20, 22.12 and later of 22, every later major).
 *
 * @param {string} version as in `process.versions.node`
 * @returns {string}
 * @example nodeProblem('18.20.0') // 'Duskcheck needs Node 20.19 or newer; …'
 */
export function nodeProblem(version) {
  const parts = version.split('.')
  const major = Number(parts[0])
  const minor = Number(parts[1])
  const good = (major === 20 && minor >= 19) || (major === 22 && minor >= 12) || major > 22
  if (good) return ''
  return `Duskcheck needs Node 20.19 or newer (of 22: 22.12 or newer); this is Node ${version}. Install a newer Node, then run the same command again.`
}
