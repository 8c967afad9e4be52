/**
 * "Two more weeks": how much longer a vet thinks an animal needs in its stage, recorded and taken back.
 * Promise: whoever may revise may record it; it changes no plan and is never refused for what a plan says; the newest said
 * of a stage counts until somebody gives that stage another length. Whether an animal may go on is the vet's decision.
 */
import type { Actor } from '#lib/authz/actor.ts'
import { requireStage } from '#lib/db/stage.ts'
import { createVetWord, voidVetWord } from '#lib/db/vet-word.ts'
import { parse, parseAt } from '#lib/domain/parse.ts'
import { vetWordBackInput, vetWordInput } from '#lib/domain/vet-word.ts'
import { momentOf, type Recorded, record } from './about-casualty.ts'

/** A vet said how much longer. Returns the number of the word. */
export async function recordVetWord(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded<number>> {
  const said = parseAt(vetWordInput, await momentOf(now), input)
  const about = {
    permission: 'casualty.revise',
    casualtyId,
    action: "vet's word",
    columns: ['stage_no', 'at', 'in_days', 'said_by'],
    isWordsOnly: true,
    isHeld: true,
  } as const
  return record(actor, about, now, async entry => {
    await requireStage(entry, casualtyId, said.stageNo)
    return createVetWord(entry, casualtyId, said)
  })
}

/** It was recorded by mistake, or the vet thinks otherwise now. */
export async function takeBackVetWord(
  actor: Actor,
  casualtyId: number,
  input: unknown,
  now: Date,
): Promise<Recorded> {
  const { wordId } = parse(vetWordBackInput, input)
  const about = {
    permission: 'casualty.revise',
    casualtyId,
    action: "vet's word taken back",
    columns: ['is_void'],
    isWordsOnly: true,
    isHeld: true,
  } as const
  return record(actor, about, now, async entry => {
    await voidVetWord(entry, casualtyId, wordId)
  })
}
