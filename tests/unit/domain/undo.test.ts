import { expect, test } from 'vitest'
import { undoLeftMs } from '#lib/domain/undo.ts'

test('taking back is offered for ten seconds from the tap', () => {
  const tapped = new Date('2026-11-29T02:00:00Z')
  const after = (seconds: number) => undoLeftMs(tapped, new Date(tapped.getTime() + seconds * 1000))
  expect([after(0), after(9.5), after(10), after(11)]).toEqual([10_000, 500, 0, -1000])
})
