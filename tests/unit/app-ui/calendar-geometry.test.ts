import fc from 'fast-check'
import { expect, it } from 'vitest'
import { weeksOf } from '#app/_ui/calendar/geometry.ts'
import { dayOfDate, weekdayOf } from '#lib/domain/day.ts'

const WEDNESDAY = dayOfDate('2026-11-25')

it('begins on the Monday of this week and leaves the days before today without a chance', () => {
  const [week] = weeksOf(WEDNESDAY, [0.1, 0.2, 0.3], 0.2)
  expect(week?.monday).toBe(WEDNESDAY - 2)
  expect(week?.cells.map(cell => cell.chance)).toEqual([
    undefined,
    undefined,
    0.1,
    0.2,
    0.3,
    undefined,
    undefined,
  ])
})

it('draws one outline round tight days that touch', () => {
  // Sunday 29 November and the whole week after it: one spell over two rows.
  const weeks = weeksOf(WEDNESDAY, [0, 0, 0, 0, ...Array.from({ length: 8 }, () => 0.5), 0], 0.2)
  const sunday = weeks[0]?.cells[6]
  expect(sunday?.edges).toEqual(['top', 'right', 'left'])
  expect(weeks[1]?.cells.map(cell => cell.edges.includes('top'))).toEqual([
    true,
    true,
    true,
    true,
    true,
    true,
    false,
  ])
})

it('never draws an edge between two tight days, and always one at the border of a spell', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 60 }),
      chances => {
        const cells = weeksOf(WEDNESDAY, chances, 0.2).flatMap(week => week.cells)
        const isTight = (day: number) => (chances[day - WEDNESDAY] ?? 0) >= 0.2 && day >= WEDNESDAY
        for (const { day, edges, isTight: own } of cells) {
          expect(own).toBe(isTight(day))
          if (!own) expect(edges).toEqual([])
          else {
            expect(edges.includes('bottom')).toBe(!isTight(day + 7))
            expect(edges.includes('left')).toBe(weekdayOf(day) === 1 || !isTight(day - 1))
          }
        }
      },
    ),
  )
})
