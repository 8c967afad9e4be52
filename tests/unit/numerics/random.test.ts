import { expect, test } from 'vitest'
import { newStream, seededRandom, seedOf } from '#lib/numerics/random.ts'

/** sfc32 as written down by its author, in whole numbers of any size instead of 32-bit operators. */
function* sfc32(seed: bigint) {
  const cut = (x: bigint) => x & 0xffffffffn
  let [a, b, c, counter] = [0x9e3779b9n, 0x243f6a88n, cut(seed), 1n]
  while (true) {
    const out = cut(a + b + counter)
    counter = cut(counter + 1n)
    a = b ^ (b >> 9n)
    b = cut(c + (c << 3n))
    c = cut(cut((c << 21n) | (c >> 11n)) + out)
    yield Number(out) / 2 ** 32
  }
}

test('repeats the published recurrence, after twelve rounds', () => {
  const ours = seededRandom(42)
  const theirs = sfc32(42n)
  for (let i = 0; i < 12; i++) theirs.next()
  for (let i = 0; i < 1000; i++) expect(ours()).toBe(theirs.next().value)
})

test('fills [0, 1) evenly: 20 boxes of 2,000 draws each within five standard deviations', () => {
  const draw = seededRandom(7)
  const boxes = new Array<number>(20).fill(0)
  for (let i = 0; i < 40_000; i++) boxes[Math.floor(draw() * 20)]!++
  for (const box of boxes) expect(Math.abs(box - 2000)).toBeLessThan(5 * Math.sqrt(2000 * 0.95))
})

test('other seeds give other streams', () => {
  expect(seededRandom(1)()).not.toBe(seededRandom(2)())
})

test('a seed of parts is the same for the same parts, and another for others, in another order, cut elsewhere', () => {
  expect(seedOf('law', 3, 7)).toBe(seedOf('law', 3, 7))
  const seeds = [
    seedOf('law', 3, 7),
    seedOf('law', 7, 3),
    seedOf('law', 37),
    seedOf('la', 'w', 3, 7),
    seedOf('law', 3, 8),
  ]
  expect(new Set(seeds).size).toBe(seeds.length)
})

test('seeds of neighbours share no first draw: 3,000 laws, days and draws fill 20 boxes evenly', () => {
  const boxes = new Array<number>(20).fill(0)
  for (let law = 0; law < 3; law++) {
    for (let day = 0; day < 50; day++) {
      for (let draw = 0; draw < 20; draw++) {
        boxes[Math.floor(seededRandom(seedOf(`law ${law}`, day, draw))() * 20)]!++
      }
    }
  }
  for (const box of boxes) expect(Math.abs(box - 150)).toBeLessThan(5 * Math.sqrt(150 * 0.95))
})

test('a stream that begins anew is that of its new seed, whatever was drawn before', () => {
  const { random, reseed } = newStream()
  for (const seed of [7, -1, 7, 4_294_967_303]) {
    reseed(seed)
    const own = seededRandom(seed)
    expect([random(), random(), random()]).toEqual([own(), own(), own()])
  }
})
