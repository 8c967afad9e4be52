/**
 * Journey 2: a volunteer, a box at the door and nobody with it, then six ducklings, of which one dies and nobody can
 * say which: one arrival, one batch, six animals, five left. By keyboard alone, and without JavaScript. Keys and
 * seconds of the machine are told: what a person adds is reading and typing.
 */
import { expect, type Page } from '@playwright/test'
import { HOSPITAL_CARER, Keys, test } from '#tests/support/journey.ts'

type Came = { arrivals: number; batches: number; animals: number; members: number; inside: number }

const CAME = `
  select count(distinct a.id)::int as arrivals, count(distinct c.batch_id)::int as batches, count(c.id)::int as animals,
         count(distinct c.member_no)::int as members,
         count(w.casualty_id) filter (where w.keeper = 'centre' and n.name = 'Averbrook Wildlife Hospital')::int as inside
    from arrival a join casualty c on c.arrival_id = a.id
    join whereabouts w on w.casualty_id = c.id and w.until is null left join centre n on n.id = w.centre_id
   where a.id = $1`

function arrivalOf(page: Page): number {
  return Number(new URL(page.url()).searchParams.get('came'))
}

test.beforeEach(() => test.setTimeout(180_000))

test('a box, then six ducklings, by keyboard; one death without a name leaves five', async ({
  page,
  asPerson,
  records,
}) => {
  await asPerson(HOSPITAL_CARER)
  await page.goto('/round')
  const keys = new Keys(page)
  const timed = async (what: string, work: () => Promise<void>) => {
    const [from, before] = [performance.now(), keys.pressed]
    await work()
    const seconds = ((performance.now() - from) / 1000).toFixed(1)
    console.log(
      `journey 2: ${what}: ${keys.pressed - before} keys beside typed words, ${seconds} s by machine`,
    )
  }

  await timed('the way to the door', async () => {
    await tabTo(page, keys, 'A box at the door')
    await keys.press('Enter')
    await expect(page).toHaveURL(/\/door\/\d+$/)
  })
  await expect(page.locator('main')).toContainText('stays outside until somebody looked')
  await timed('a box', async () => {
    await expect(page.locator('input[name="animalTyped"]')).toBeFocused()
    await keys.type('hedgehog')
    await keys.press('Tab')
    await keys.press('Tab')
    await keys.type('thin and out by day')
    await keys.press('Enter')
    await expect(page).toHaveURL(/came=\d+/)
  })
  await expect(page.locator('h1')).toContainText('Hedgehog came in')
  expect(await records<Came>(CAME, [arrivalOf(page)])).toEqual([
    { arrivals: 1, batches: 0, animals: 1, members: 0, inside: 1 },
  ])

  const box = arrivalOf(page)
  await timed('six ducklings', async () => {
    await expect(page.locator('input[name="animalTyped"]')).toBeFocused()
    await keys.type('mallard')
    await keys.press('Tab')
    await keys.type('6')
    await keys.press('Enter')
    await expect(page).not.toHaveURL(new RegExp(`came=${box}$`))
  })
  await expect(page.locator('h1')).toContainText('Mallard: 6 came in')
  const ducklings = arrivalOf(page)
  expect(await records<Came>(CAME, [ducklings])).toEqual([
    { arrivals: 1, batches: 1, animals: 6, members: 6, inside: 6 },
  ])

  await timed('one died, not known which', async () => {
    await tabTo(page, keys, /^[A-Z][a-z]+ \d{2,3}$/)
    await keys.press('Enter')
    await expect(page).toHaveURL(/\/casualties\//)
    await tabTo(page, keys, 'One of the 6 died, not known which')
    await keys.press('Enter')
    await tabTo(page, keys, 'Record')
    await keys.press('Enter')
    await expect(page).toHaveURL(/done=outcome/)
  })
  await expect(page.locator('main')).toContainText('One of the 5 died, not known which')
  await expectFive(records, ducklings)
})

type Records = Parameters<Parameters<typeof test>[2]>[0]['records']

async function expectFive(records: Records, arrival: number): Promise<void> {
  const [left] = await records<{ inside: number; died: number; said: number }>(
    `select count(*) filter (where w.keeper = 'centre')::int as inside,
            count(*) filter (where k.outcome = 'died')::int as died,
            (select count(*)::int from note o join casualty m on m.id = o.casualty_id
              where m.arrival_id = $1 and o.words like 'One of the batch%') as said
       from casualty c join whereabouts w on w.casualty_id = c.id and w.until is null
       join keeping k on k.id = w.keeping_id where c.arrival_id = $1`,
    [arrival],
  )
  expect(left).toEqual({ inside: 5, died: 1, said: 1 })
}

/** Presses Tab until what has the focus reads so. */
async function tabTo(page: Page, keys: Keys, name: string | RegExp): Promise<void> {
  const focused = () =>
    page.evaluate(() => {
      const { activeElement } = document
      const isHidden = activeElement instanceof HTMLElement && activeElement.offsetParent === null
      return isHidden ? '' : (activeElement?.textContent ?? '').trim()
    })
  const isThere = (text: string) => (typeof name === 'string' ? text === name : name.test(text))
  for (let tabs = 0; tabs < 120; tabs++) {
    await keys.press('Tab')
    if (isThere(await focused())) return
  }
  throw new Error(`nothing that takes the focus reads ${String(name)}`)
}

test.describe('without JavaScript', () => {
  test.use({ javaScriptEnabled: false })

  test('words that name no single animal are asked about, and everything typed is kept', async ({
    page,
    asPerson,
    records,
  }) => {
    await asPerson(HOSPITAL_CARER)
    await page.goto('/door')
    await expect(page).toHaveURL(/\/door\/\d+$/)
    await page.locator('input[name="animalTyped"]').fill('gull')
    await page.locator('input[name="wrongTyped"]').fill('wing hangs')
    await page.getByRole('button', { name: 'Take in' }).click()
    await expect(page.getByRole('alert')).toContainText('Which animal is it?')
    await expect(page.locator('input[name="animalTyped"]')).toHaveValue('gull')
    await expect(page.locator('input[name="wrongTyped"]')).toHaveValue('wing hangs')
    await page.locator('input[name="species"]').first().check()
    await page.getByRole('button', { name: 'Take in' }).click()
    await expect(page).toHaveURL(/came=\d+/)
    expect(await records<Came>(CAME, [arrivalOf(page)])).toEqual([
      { arrivals: 1, batches: 0, animals: 1, members: 0, inside: 1 },
    ])
  })

  test('what nobody can name comes in as what it looks like', async ({ page, asPerson, records }) => {
    await asPerson(HOSPITAL_CARER)
    await page.goto('/door')
    await page.locator('input[name="animalTyped"]').fill('xyzzy')
    await page.getByRole('button', { name: 'Take in' }).click()
    await page.locator('select[name="species"]').selectOption('small-brown-bird')
    await page.getByRole('button', { name: 'Take in' }).click()
    await expect(page).toHaveURL(/came=\d+/)
    const [one] = await records<{ species: string; condition: string }>(
      `select c.species_slug as species, f.condition_slug as condition
         from casualty c join finding f on f.casualty_id = c.id where c.arrival_id = $1`,
      [arrivalOf(page)],
    )
    expect(one).toEqual({ species: 'small-brown-bird', condition: 'any-reason' })
  })

  test('six ducklings in one form; one death leaves five', async ({ page, asPerson, records }) => {
    await asPerson(HOSPITAL_CARER)
    await page.goto('/door')
    const from = performance.now()
    await page.locator('input[name="animalTyped"]').fill('mallard')
    await page.locator('input[name="count"]').fill('6')
    await page.getByRole('button', { name: 'Take in' }).click()
    await expect(page).toHaveURL(/came=\d+/)
    console.log(
      `journey 2 without JavaScript: six ducklings ${((performance.now() - from) / 1000).toFixed(1)} s by machine`,
    )
    const arrival = arrivalOf(page)
    expect(await records<Came>(CAME, [arrival])).toEqual([
      { arrivals: 1, batches: 1, animals: 6, members: 6, inside: 6 },
    ])
    await page.locator('.door-in a').first().click()
    await page.locator('#one-of-batch summary').click()
    await page.locator('#one-of-batch form button').last().click()
    await expect(page).toHaveURL(/done=outcome/)
    await expectFive(records, arrival)
  })
})
