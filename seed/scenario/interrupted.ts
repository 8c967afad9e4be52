/**
 * What stands half done on the line tonight, told through the services: calls put aside with a call-back that somebody
 * owns, one of them overdue, and a second voice about the bird in the box at Heskwith lane.
 */
import type { PersonActor } from '#lib/authz/actor.ts'
import type { SheetInput } from '#lib/domain/call-sheet.ts'
import { openCall, promiseCallBack, saveSheet, setAside } from '#lib/service/call.ts'
import { personIdOf } from './people.ts'

const MS_PER_MINUTE = 60_000

type Standing = {
  readonly by: 'Marit Sollwyn' | 'Joss Penhaddon' | 'Emrik Tallowby'
  readonly minutesAgo: number
  readonly sheet: SheetInput
  readonly callBack?: { readonly minutes: number; readonly what: string }
}

const STANDING: readonly Standing[] = [
  {
    by: 'Joss Penhaddon',
    minutesAgo: 52,
    sheet: {
      animalTyped: 'Barn owl',
      whereTyped: 'Corverley viaduct',
      wrongTyped: 'sits in the road, looks stunned',
      conditions: ['road-traffic'],
      notes: 'A lorry driver has it in his cab and waits at the lay-by.',
      finderName: 'Perran Greyfold',
      finderPhone: '07700 900641',
    },
    callBack: { minutes: 30, what: 'Is it awake, and will he drive?' },
  },
  {
    by: 'Marit Sollwyn',
    minutesAgo: 35,
    sheet: {
      animalTyped: 'Hedgehog',
      whereTyped: 'Ollerstane ford',
      wrongTyped: 'out by day, walks in circles',
      conditions: ['any-reason'],
      finderName: 'Sanna Hartsedge',
      finderPhone: '07700 900655',
    },
    callBack: { minutes: 60, what: 'Is it in a box by now?' },
  },
  {
    by: 'Emrik Tallowby',
    minutesAgo: 2,
    sheet: {
      animalTyped: 'Bird of prey, unknown',
      whereTyped: 'Heskwith lane',
      wrongTyped: 'brown bird with a hooked beak, hopping by the hedge',
      finderName: 'Maelis Lindacre',
      finderPhone: '07700 900618',
    },
  },
]

/** Tells them in the order in which they came; returns how many. */
export async function tellStanding(now: Date): Promise<number> {
  for (const { by, minutesAgo, sheet, callBack } of STANDING) {
    const at = new Date(now.getTime() - minutesAgo * MS_PER_MINUTE)
    const actor: PersonActor = {
      kind: 'person',
      personId: personIdOf(by),
      name: by,
      roles: [{ role: 'coordinator' }],
    }
    const id = await openCall(actor, at)
    await saveSheet(actor, id, undefined, sheet, at)
    if (callBack === undefined) await setAside(actor, id, at)
    else await promiseCallBack(actor, id, callBack, at)
  }
  return STANDING.length
}
