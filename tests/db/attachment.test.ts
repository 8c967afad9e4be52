import sharp from 'sharp'
import { beforeAll, describe, expect, it } from 'vitest'
import type { PersonActor } from '#lib/authz/actor.ts'
import { makeAskLink } from '#lib/service/ask-answer.ts'
import { answerByLink, readAnswerPage } from '#lib/service/ask-link.ts'
import {
  addPicture,
  readPicture,
  readPictureByLink,
  readPictures,
  takePictureBack,
} from '#lib/service/attachment.ts'
import { COORDINATOR, decideAndAsk, makeAskWorld, minutes, OPTIONS } from '#tests/support/ask-world.ts'
import { database } from '#tests/support/database.ts'
import { hours } from '#tests/support/heart.ts'

const { pool } = database
const NOW = hours(6)
let animals: number[] = []
let next = 0
const animal = (): number => animals[next++]!

const someone = (role: PersonActor['roles'][number]): PersonActor => ({
  kind: 'person',
  personId: 1,
  name: 'One',
  roles: [role],
})
const ELSEWHERE = someone({ role: 'carer', centreId: 999 })
const MANAGER = someone({ role: 'manager' })

let shade = 0
/** A picture that no other test has sent. */
const drawn = () =>
  sharp({ create: { width: 64, height: 48, channels: 3, background: { r: shade++, g: 0, b: 0 } } })
    .png()
    .toBuffer()

const asking = async (words = 'left leg') => ({ kind: 'radiograph', words, picture: await drawn() })
const added = async (casualty: number) => addPicture(COORDINATOR, casualty, await asking(), NOW)
const sizesOf = async (id: number) =>
  (await pool.query('select size from attachment_image where attachment_id = $1 order by 1', [id])).rows.map(
    ({ size }) => size,
  )

beforeAll(async () => {
  const client = await pool.connect()
  animals = await makeAskWorld(client, 12)
  client.release()
})

describe('a picture of an animal', () => {
  it('is kept in two sizes and listed without its bytes', async () => {
    const casualty = animal()
    const id = await added(casualty)
    expect(await sizesOf(id)).toEqual(['thumbnail', 'whole'])
    const { all, mayAdd } = await readPictures(COORDINATOR, casualty)
    expect(mayAdd).toBe(true)
    expect(all).toMatchObject([
      { id, kind: 'radiograph', words: 'left leg', width: 64, height: 48, takenBack: null },
    ])
    expect((await readPicture(COORDINATOR, id, 'whole')).subarray(0, 4)).toEqual(
      new Uint8Array(Buffer.from('RIFF')),
    )
  })

  it('sent twice is one, at once or one after the other', async () => {
    const casualty = animal()
    const input = await asking()
    const tries = await Promise.allSettled(
      Array.from({ length: 4 }, () => addPicture(COORDINATOR, casualty, input, NOW)),
    )
    const kept = tries.flatMap(one => (one.status === 'fulfilled' ? [one.value] : []))
    const rules = tries.flatMap(one => (one.status === 'rejected' ? [one.reason.rule] : []))
    expect(new Set(kept).size).toBe(1)
    expect(rules.filter(rule => rule !== 'attachment_sent_once')).toEqual([])
    expect(await addPicture(COORDINATOR, casualty, input, minutes(1, NOW))).toBe(kept[0])
    expect((await readPictures(COORDINATOR, casualty)).all).toHaveLength(1)
  })

  it('is nothing to whoever may not see the case, and only shown to whoever may not add', async () => {
    const casualty = animal()
    const id = await added(casualty)
    await expect(readPicture(ELSEWHERE, id, 'thumbnail')).rejects.toMatchObject({ code: 'not-found' })
    await expect(addPicture(ELSEWHERE, casualty, await asking(), NOW)).rejects.toMatchObject({
      code: 'not-found',
    })
    expect((await readPicture(MANAGER, id, 'thumbnail')).length).toBeGreaterThan(0)
    await expect(addPicture(MANAGER, casualty, await asking(), NOW)).rejects.toMatchObject({
      code: 'forbidden',
    })
    await expect(readPicture(COORDINATOR, 999_999, 'whole')).rejects.toMatchObject({ code: 'not-found' })
  })

  it('that was taken back keeps its line and why, and is gone itself', async () => {
    const casualty = animal()
    const input = await asking()
    const id = await addPicture(COORDINATOR, casualty, input, NOW)
    await takePictureBack(COORDINATOR, casualty, { attachmentId: id, because: 'another animal' }, NOW)
    expect((await readPictures(COORDINATOR, casualty)).all).toMatchObject([
      { id, takenBack: { because: 'another animal' } },
    ])
    expect(await sizesOf(id)).toEqual([])
    await expect(readPicture(COORDINATOR, id, 'whole')).rejects.toMatchObject({ code: 'not-found' })
    const again = { attachmentId: id, because: 'twice' }
    await expect(takePictureBack(COORDINATOR, casualty, again, NOW)).rejects.toMatchObject({
      code: 'conflict',
    })
    // It may be sent anew: the one before stands no more.
    expect(await addPicture(COORDINATOR, casualty, input, NOW)).not.toBe(id)
  })

  it('can’t be taken back on another animal’s page', async () => {
    const id = await added(animal())
    const input = { attachmentId: id, because: 'x' }
    await expect(takePictureBack(COORDINATOR, animal(), input, NOW)).rejects.toMatchObject({
      code: 'not-found',
    })
    expect(await sizesOf(id)).toHaveLength(2)
  })
})

describe('whoever has the link of an ask', () => {
  it('sees the pictures of its animal and of no other, until it is answered', async () => {
    const casualty = animal()
    const [own, other] = [await added(casualty), await added(animal())]
    const ask = await decideAndAsk(casualty, OPTIONS, NOW)
    const token = (await makeAskLink(COORDINATOR, ask, NOW)).split('/').at(-1) ?? ''
    const page = await readAnswerPage(token, minutes(1, NOW))
    expect(page).toMatchObject({ kind: 'open', one: { pictures: [{ id: own, words: 'left leg' }] } })
    expect((await readPictureByLink(token, own, 'thumbnail', minutes(1, NOW))).length).toBeGreaterThan(0)
    await expect(readPictureByLink(token, other, 'whole', minutes(1, NOW))).rejects.toMatchObject({
      code: 'not-found',
    })
    await expect(readPictureByLink('x'.repeat(43), own, 'whole', NOW)).rejects.toMatchObject({
      code: 'not-found',
    })
    await answerByLink(token, { say: 'no', by: 'Ada' }, minutes(2, NOW))
    await expect(readPictureByLink(token, own, 'whole', minutes(3, NOW))).rejects.toMatchObject({
      code: 'not-found',
    })
  })
})
