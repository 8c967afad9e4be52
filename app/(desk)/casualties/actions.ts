'use server'

import { z } from 'zod'
import { withSpan } from '#lib/domain/precision.ts'
import { localDateTimeText } from '#lib/domain/text.ts'
import { addPicture, takePictureBack } from '#lib/service/attachment.ts'
import { moveSomeOfBatch, recordOneOfBatch } from '#lib/service/batch.ts'
import { maySeeCasualty } from '#lib/service/casualty.ts'
import { recordArrivalOfCard, recordCheckOfCard, reviseChanged } from '#lib/service/casualty-change.ts'
import { joinGroup, partGroup, takeBackGrouping, tellApart } from '#lib/service/group.ts'
import { bookDeparture, releaseHold } from '#lib/service/hold.ts'
import { recordLicence } from '#lib/service/licence.ts'
import { planOverwinter } from '#lib/service/overwinter.ts'
import { recordMoved, recordOutcome, recordUndone } from '#lib/service/record.ts'
import {
  identify,
  recordNote,
  recordReady,
  recordStageMoved,
  recordWeight,
  recordWeightAnswer,
} from '#lib/service/record-stay.ts'
import { recordWaiting } from '#lib/service/release.ts'
import { recordSurgery, takeBackSurgery } from '#lib/service/surgery.ts'
import { recordVetWord, takeBackVetWord } from '#lib/service/vet-word.ts'
import { defineAction } from '#lib/web/define-action.ts'
import type { FormInput } from '#lib/web/form.ts'
import { currentDay } from '#lib/web/network.ts'
import { paths } from '#lib/web/paths.ts'

type Actor = Parameters<typeof maySeeCasualty>[0]

const idOf = (form: FormInput) => Number(form['casualtyId'])

async function spanned(form: FormInput, name: 'since' | 'at'): Promise<FormInput> {
  const { now, zone } = await currentDay()
  return withSpan<FormInput>(form, name, z.encode(localDateTimeText(zone), now))
}

/** Back to the card; whoever may no longer see the animal goes to the list. */
async function afterwards(actor: Actor, form: FormInput, done: string) {
  const to = (await maySeeCasualty(actor, idOf(form)))
    ? paths.casualty(String(form['reference'] ?? ''), { done })
    : paths.casualties()
  return { to, refresh: ['casualty'] as const }
}

export const arrived = defineAction(async ({ actor, form, now }) => {
  await recordArrivalOfCard(actor, idOf(form), await spanned(form, 'since'), now)
  return afterwards(actor, form, 'arrived')
})

export const moved = defineAction(async ({ actor, form, now }) => {
  await recordMoved(actor, idOf(form), { ...(await spanned(form, 'since')), to: 'centre' }, now)
  return afterwards(actor, form, 'moved')
})

/** Somebody else has it: "practice:3", "driver:2" or "finder". */
export const handedOver = defineAction(async ({ actor, form, now }) => {
  const [to = '', id = ''] = String(form['keeper'] ?? '').split(':')
  const named = to === 'practice' ? { practiceId: id } : to === 'driver' ? { driverId: id } : {}
  await recordMoved(actor, idOf(form), { ...(await spanned(form, 'since')), to, ...named }, now)
  return afterwards(actor, form, 'moved')
})

export const ready = defineAction(async ({ actor, form, now }) => {
  await recordReady(actor, idOf(form), await spanned(form, 'at'), now)
  return afterwards(actor, form, 'ready')
})

export const wentOn = defineAction(async ({ actor, form, now }) => {
  await recordStageMoved(actor, idOf(form), await spanned(form, 'at'), now)
  return afterwards(actor, form, 'went')
})

export const checked = defineAction(async ({ actor, form, now }) => {
  await recordCheckOfCard(actor, await spanned(form, 'at'), now)
  return afterwards(actor, form, 'check')
})

export const weighed = defineAction(async ({ actor, form, now }) => {
  const grams = String(form['grams'] ?? '').replace(',', '.')
  await recordWeight(actor, idOf(form), { ...(await spanned(form, 'at')), grams }, now)
  return afterwards(actor, form, 'weighed')
})

export const weightAnswered = defineAction(async ({ actor, form, now }) => {
  await recordWeightAnswer(actor, idOf(form), form, now)
  return afterwards(actor, form, form['isSure'] === 'yes' ? 'sure' : 'undone')
})

export const overwintered = defineAction(async ({ actor, form, now }) => {
  await planOverwinter(actor, idOf(form), now)
  return afterwards(actor, form, 'overwintered')
})

export const licenceSaid = defineAction(async ({ actor, form, now }) => {
  await recordLicence(actor, idOf(form), form, now)
  return afterwards(actor, form, 'licence')
})

export const waited = defineAction(async ({ actor, form, now }) => {
  await recordWaiting(actor, idOf(form), form, now)
  return afterwards(actor, form, 'waits')
})

export const operated = defineAction(async ({ actor, form, now }) => {
  await recordSurgery(actor, idOf(form), await spanned(form, 'at'), now)
  return afterwards(actor, form, 'operated')
})

export const operationTakenBack = defineAction(async ({ actor, form, now }) => {
  await takeBackSurgery(actor, idOf(form), form, now)
  return afterwards(actor, form, 'undone')
})

export const vetSaid = defineAction(async ({ actor, form, now }) => {
  await recordVetWord(actor, idOf(form), await spanned(form, 'at'), now)
  return afterwards(actor, form, 'said')
})

export const vetWordTakenBack = defineAction(async ({ actor, form, now }) => {
  await takeBackVetWord(actor, idOf(form), form, now)
  return afterwards(actor, form, 'undone')
})

export const pictureAdded = defineAction(async ({ actor, form, picture, now }) => {
  await addPicture(actor, idOf(form), { ...form, picture }, now)
  return afterwards(actor, form, 'picture')
})

export const pictureTakenBack = defineAction(async ({ actor, form, now }) => {
  await takePictureBack(actor, idOf(form), form, now)
  return afterwards(actor, form, 'undone')
})

export const noted = defineAction(async ({ actor, form, now }) => {
  await recordNote(actor, idOf(form), await spanned(form, 'at'), now)
  return afterwards(actor, form, 'note')
})

export const revised = defineAction(async ({ actor, form, now }) => {
  await reviseChanged(actor, idOf(form), form, now)
  return afterwards(actor, form, 'revised')
})

export const named = defineAction(async ({ actor, form, now }) => {
  await identify(actor, idOf(form), form, now)
  return afterwards(actor, form, 'named')
})

export const ended = defineAction(async ({ actor, form, now }) => {
  await recordOutcome(actor, idOf(form), await spanned(form, 'since'), now)
  return afterwards(actor, form, 'outcome')
})

/** Back to one that is left, where the lowest of them was the one whose card it was. */
export const oneOfBatchEnded = defineAction(async ({ actor, form, now }) => {
  const { left } = (await recordOneOfBatch(actor, idOf(form), await spanned(form, 'since'), now)).made
  return afterwards(actor, { ...form, ...left }, 'outcome')
})

export const someOfBatchMoved = defineAction(async ({ actor, form, now }) => {
  await moveSomeOfBatch(actor, idOf(form), await spanned(form, 'since'), now)
  return afterwards(actor, form, 'moved')
})

export const joined = defineAction(async ({ actor, form, now }) => {
  await joinGroup(actor, idOf(form), form, now)
  return afterwards(actor, form, 'joined')
})

export const parted = defineAction(async ({ actor, form, now }) => {
  await partGroup(actor, idOf(form), form, now)
  return afterwards(actor, form, 'parted')
})

export const toldApart = defineAction(async ({ actor, form, now }) => {
  await tellApart(actor, idOf(form), form, now)
  return afterwards(actor, form, 'told')
})

export const regroupingTakenBack = defineAction(async ({ actor, form, now }) => {
  await takeBackGrouping(actor, idOf(form), form['lineId'], now)
  return afterwards(actor, form, 'undone')
})

export const undone = defineAction(async ({ actor, form, now }) => {
  await recordUndone(actor, idOf(form), form['keepingId'], now)
  return afterwards(actor, form, 'undone')
})

export const booked = defineAction(async ({ actor, form, now }) => {
  await bookDeparture(actor, idOf(form), form, now)
  return afterwards(actor, form, form['leavesAt'] === '' ? 'unbooked' : 'booked')
})

export const givenBack = defineAction(async ({ actor, form, now }) => {
  await releaseHold(actor, Number(form['holdId']), now)
  return afterwards(actor, form, 'given-back')
})
