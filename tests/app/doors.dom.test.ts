import { expect, test } from 'vitest'
import { doorsOf, readDoors } from '../../src/app/doors.ts'
import { renderStart } from '../../src/app/prerender.tsx'
import { compiled } from './screens/walk.ts'

test('the doors read from the page that the build makes are those of the protocol, in its order', () => {
  const page = document.createElement('div')
  page.innerHTML = renderStart(compiled.frame)
  const doors = readDoors(page)
  expect(doors).toEqual(doorsOf(compiled.frame))
  expect(doors.concerns.map(({ id }) => id)).toEqual(compiled.logic.concerns)
  expect(doors.signs.length).toBe(compiled.frame.doors.length)
})

test('a door without a hint is read without one', () => {
  const page = document.createElement('div')
  const [door] = compiled.frame.doors
  page.innerHTML = renderStart({ ...compiled.frame, doors: [{ screen: 'any', door: 'A & B' }] })
  expect(door?.doorHint).toBeTruthy()
  expect(readDoors(page).signs).toEqual([{ id: 'any', label: 'A & B' }])
})
