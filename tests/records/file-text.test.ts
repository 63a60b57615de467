import { expect, test } from 'vitest'
import { MOST_FILE_BYTES, readText } from '../../src/records/file-text.ts'
import { fileOf, hugeFile, PICTURE } from './files.ts'

test('UTF-8 is read with and without its mark', async () => {
  expect(await readText(fileOf('Dünensand'))).toEqual({ ok: true, value: 'Dünensand' })
  expect(await readText(fileOf('\uFEFFDünensand'))).toEqual({ ok: true, value: 'Dünensand' })
})

test.each([
  ['little', true],
  ['big', false],
])('UTF-16 with its mark is read, %s end first', async (_name, isLittle) => {
  const text = '\uFEFFdate,Dünensand'
  const view = new DataView(new ArrayBuffer(text.length * 2))
  for (let at = 0; at < text.length; at += 1) view.setUint16(at * 2, text.charCodeAt(at), isLittle)
  expect(await readText(fileOf(new Uint8Array(view.buffer)))).toEqual({ ok: true, value: 'date,Dünensand' })
})

test('Windows-1252 is read where it is allowed', async () => {
  const bytes = new Uint8Array([0x44, 0xfc, 0x6e, 0x65])
  expect(await readText(fileOf(bytes), { orWindows: true })).toEqual({ ok: true, value: 'Düne' })
  expect(await readText(fileOf(bytes))).toMatchObject({ ok: false })
})

test.each([true, false])('a picture is refused, whatever encodings are allowed', async orWindows => {
  expect(await readText(fileOf(PICTURE, 'gecko.png'), { orWindows })).toMatchObject({
    ok: false,
    faults: [{ field: 'file', value: 'gecko.png, no text' }],
  })
})

test.each(['', ' \r\n ', '\uFEFF'])('an empty file is refused: %j', async content => {
  expect(await readText(fileOf(content))).toEqual({
    ok: false,
    faults: [{ field: 'file', value: 'notebook.csv, empty', accepted: 'a file with something in it' }],
  })
})

test('a file of 50 MB is refused without reading it', async () => {
  expect(await readText(hugeFile(MOST_FILE_BYTES))).toEqual({
    ok: false,
    faults: [{ field: 'file', value: 'huge.csv, 50 MB', accepted: 'a file below 50 MB; nothing was read' }],
  })
})
