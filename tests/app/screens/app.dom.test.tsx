import { cleanup, screen, waitFor } from '@testing-library/preact'
import { afterEach, describe, expect, test } from 'vitest'
import { renderStart } from '../../../src/app/prerender.tsx'
import type { Happening } from '../../../src/app/use-wizard.ts'
import { labels } from '../../../src/app/wording/labels.ts'
import { compiled, goOn, heading, NIGHT, open, press, tick, toConcern } from './walk.ts'

afterEach(cleanup)

describe('the start screen', () => {
  test('offers a door for each page of urgent signs, one way past them, and says who made it', () => {
    open()
    for (const { door } of compiled.frame.doors) expect(screen.getByText(door)).toBeTruthy()
    expect(screen.getByRole('button', { name: /^More than one of these/ })).toBeTruthy()
    expect(screen.getByText(compiled.frame.trustLine)).toBeTruthy()
  })

  test('is the same when it is made at build', () => {
    const html = String(renderStart(compiled.frame))
    for (const { door } of compiled.frame.doors) expect(html).toContain(door.replace(/&/g, '&amp;'))
    expect(html).not.toContain('style=')
  })

  test('offers to go on with a case that was not finished', async () => {
    const now = NIGHT.instant
    const [first] = compiled.logic.questions
    const unfinished = [
      {
        question: first?.id ?? '',
        answer: { kind: 'several' as const, chosen: [], rest: 'no' as const, given: now },
      },
    ]
    open({ store: { append: async () => {}, earlier: { log: unfinished, dropped: 0 } } })
    await screen.findByRole('button', { name: /^Go on where you stopped/ })
    await goOn(/Go on where you stopped/)
    expect(heading().textContent).toBe(
      compiled.dangerWords.questions[compiled.logic.questions[1]?.id ?? '']?.ask,
    )
  })
})

describe('a question', () => {
  test('says which page of the urgent signs it is', async () => {
    open()
    await goOn(/^More than one of these/)
    const { length } = compiled.frame.doors
    expect(screen.getByText(`Urgent signs, page 1 of ${length}`)).toBeTruthy()
  })

  test('changes its button once a line is ticked', async () => {
    open()
    await goOn(/^More than one of these/)
    expect(screen.queryByRole('button', { name: 'This is what I see' })).toBeNull()
    const [box] = screen.getAllByRole('checkbox')
    box?.click()
    await waitFor(() => expect(screen.getByRole('button', { name: 'This is what I see' })).toBeTruthy())
  })

  test('shows how to look before "can\'t tell" counts, and counts it the second time', async () => {
    open()
    await goOn(/^More than one of these/)
    const before = heading().textContent
    const howTo = compiled.dangerWords.questions[compiled.logic.questions[0]?.id ?? '']?.howTo?.[0] ?? ''
    const fold = screen.getByText(howTo).closest('details')
    expect(fold?.open).toBe(false)
    // The new screen has taken the focus to its heading first.
    await waitFor(() => expect(document.activeElement === heading()).toBe(true))
    await press(labels.lookFirst)
    await waitFor(() => expect(fold?.open).toBe(true))
    await waitFor(() => expect(fold?.contains(document.activeElement)).toBe(true))
    expect(heading().textContent).toBe(before)
    await goOn(labels.stillCannotTell)
  })

  test('says after the urgent signs that they are done, and what it is about now', async () => {
    open()
    await toConcern()
    expect(screen.getByText(labels.signsDone)).toBeTruthy()
    const [concern] = compiled.frame.concerns
    await tick(new RegExp(`^${concern?.name}`))
    await goOn('Continue')
    expect(screen.getByText(labels.nowAbout(concern?.name ?? ''))).toBeTruthy()
  })

  test('says how many lines there are, and puts its buttons after the last', async () => {
    open()
    await goOn(/^More than one of these/)
    const lines = screen.getAllByRole('checkbox').length
    expect(screen.getByText(new RegExp(`${lines} lines, then the buttons`))).toBeTruthy()
    expect(document.querySelector('.action-bar-flows')).not.toBeNull()
  })

  test('refuses to go on without a concern, and says what to do', async () => {
    open()
    await toConcern()
    await press('Continue')
    await waitFor(() => expect(screen.getByText(/Tick at least one line/)).toBeTruthy())
  })

  test('goes back to the question before with its answer kept', async () => {
    open()
    await toConcern()
    await tick(/Old skin is stuck/)
    await goOn('Continue')
    await goOn('Back')
    expect((screen.getAllByLabelText(/Old skin is stuck/)[0] as HTMLInputElement).checked).toBe(true)
  })

  test('goes back to the start from the first one', async () => {
    open()
    await goOn(/^More than one of these/)
    await goOn('Back')
    expect(heading().textContent).toBe('What do you see right now?')
  })
})

describe('the store', () => {
  test('has written an answer before the next screen shows', async () => {
    const written: Happening[] = []
    let holdBack = false
    let letGo: () => void = () => {}
    const append = (happening: Happening) =>
      new Promise<void>(resolve => {
        written.push(happening)
        if (holdBack) letGo = resolve
        else resolve()
      })
    open({ store: { append } })
    await goOn(/^More than one of these/)
    const before = heading().textContent
    holdBack = true
    await press('None of these')
    // The start button itself has said which animal it is.
    await waitFor(() => expect(written.map(({ kind }) => kind)).toEqual(['began', 'answered', 'answered']))
    expect(heading().textContent).toBe(before)
    letGo()
    await waitFor(() => expect(heading().textContent).not.toBe(before))
  })

  test('that refuses is told of, and the check goes on from memory', async () => {
    open({ store: { append: () => Promise.reject(new Error('full')) } })
    await goOn(/^More than one of these/)
    await waitFor(() => expect(screen.getByText(/does not keep your answers/)).toBeTruthy())
    await goOn('None of these')
  })
})

describe('a case', () => {
  /** Ticks the first sign of the first door, which is at now. */
  const reachNow = async () => {
    await goOn(new RegExp(`^${compiled.frame.doors[0]?.door}`))
    screen.getAllByRole('checkbox')[0]?.click()
    await waitFor(() => screen.getByRole('button', { name: 'This is what I see' }))
    await goOn('This is what I see')
  }
  const writes = () => {
    const written: Happening[] = []
    return { written, append: async (happening: Happening) => written.push(happening) }
  }
  /** Follows a link within the page, as the browser does: an entry without a state, and then the event. */
  const follow = (hash: string) => {
    globalThis.history.pushState(null, '', hash)
    globalThis.dispatchEvent(new Event('hashchange'))
  }
  const kinds = (written: readonly Happening[]) => written.map(({ kind }) => kind)

  test('with one worry never sees the list of worries, and keeps it as an answer', async () => {
    const { written, append } = writes()
    open({ store: { append } })
    await goOn(/^Losing weight/)
    while (/^Urgent signs, page/.test(screen.queryByText(/^Urgent signs, page/)?.textContent ?? ''))
      await goOn('None of these')
    expect(heading().textContent).not.toBe('What worries you?')
    expect(written.filter(one => one.kind === 'answered')[1]?.entry).toEqual({
      question: compiled.logic.questions[compiled.logic.concernQuestion]?.id,
      answer: {
        kind: 'several',
        chosen: [compiled.frame.concerns.find(({ name }) => name === 'Losing weight')?.id],
        rest: 'no',
        given: NIGHT.instant,
      },
    })
  })

  test('whose outcome was shown is finished when another begins', async () => {
    const { written, append } = writes()
    open({ store: { append } })
    await reachNow()
    await waitFor(() => expect(kinds(written)).toEqual(['began', 'answered', 'answered', 'assessed']))
    follow('#start')
    await waitFor(() => expect(heading().textContent).toBe('What do you see right now?'))
    expect(screen.getByRole('button', { name: /^Look at the last outcome/ })).toBeTruthy()
    await goOn(/^Losing weight/)
    expect(kinds(written).slice(4)).toEqual(['finished', 'began', 'answered', 'answered'])
  })

  test('that is not finished is not left without asking', async () => {
    const { written, append } = writes()
    open({ store: { append } })
    await goOn(/^Losing weight/)
    await goOn('None of these')
    follow('#start')
    await waitFor(() => expect(heading().textContent).toBe('What do you see right now?'))
    await goOn(/^Not eating/)
    expect(heading().textContent).toBe('Go on, or begin anew?')
    await goOn('Begin anew')
    expect(kinds(written)).not.toContain('finished')
    expect(kinds(written).filter(kind => kind === 'began')).toHaveLength(2)
  })

  test('goes through the urgent signs without the chart, which takes over when it has come', async () => {
    let arrive: () => void = () => {}
    const arrival = new Promise<void>(resolve => {
      arrive = resolve
    })
    open({ arrival })
    await goOn(/^Losing weight/)
    for (const _ of compiled.frame.doors.slice(1)) await goOn('None of these')
    await press('None of these')
    await waitFor(() => expect(screen.getByRole('status').textContent).toMatch(/on their way/))
    arrive()
    await waitFor(() => expect(heading().textContent).toMatch(/\?$/))
    await goOn('Back')
    expect(screen.getByText(new RegExp(`page ${compiled.frame.doors.length} of`))).toBeTruthy()
  })
})

describe('an outcome', () => {
  test('that is now says to phone first, and what to do when nobody can see it', async () => {
    open()
    await goOn(new RegExp(`^${compiled.frame.doors[0]?.door}`))
    screen.getAllByRole('checkbox')[0]?.click()
    await waitFor(() => screen.getByRole('button', { name: 'This is what I see' }))
    await goOn('This is what I see')
    expect(heading().textContent).toMatch(/^Phone a vet now/)
    await waitFor(() => expect(document.activeElement === heading()).toBe(true))
    expect(document.title).toMatch(/^Phone a vet now/)
    expect(screen.getByText('If nobody can see it tonight')).toBeTruthy()
    expect(screen.getByText(compiled.frame.money)).toBeTruthy()
  })

  test('for hard breathing changes its first aid by one tap, and stays now', async () => {
    open()
    await goOn(new RegExp(`^${compiled.frame.doors[0]?.door}`))
    screen.getAllByRole('checkbox')[0]?.click()
    await waitFor(() => screen.getByRole('button', { name: 'This is what I see' }))
    await goOn('This is what I see')
    expect(screen.queryByText(/Very hot place: carry it/)).toBeNull()
    await tick(/In a very hot place/)
    await waitFor(() => expect(screen.getAllByText(/Very hot place: carry it/).length).toBe(1))
    expect(heading().textContent).toMatch(/^Phone a vet now/)
  })

  test('can be left for details for the vet, and Back returns to it unchanged', async () => {
    open()
    await goOn(new RegExp(`^${compiled.frame.doors[0]?.door}`))
    screen.getAllByRole('checkbox')[0]?.click()
    await waitFor(() => screen.getByRole('button', { name: 'This is what I see' }))
    await goOn('This is what I see')
    await goOn('Add details for the vet')
    expect(screen.getByText(/It changes nothing above/)).toBeTruthy()
    await goOn('Back')
    expect(heading().textContent).toMatch(/^Phone a vet now/)
  })
})
