/**
 * Who must be alone changes with the months: adults of a seasonal species are kept apart while they breed, then not.
 * Promise: what the day says stands from that day on; past nights stay as they were. Each animal is one entry, done
 * once whichever process sees it first.
 */
import { systemActor } from '#lib/authz/actor.ts'
import { demand } from '#lib/authz/demand.ts'
import { inEntry } from '#lib/db/entry.ts'
import { listSeasonal, setAlone } from '#lib/db/timer.ts'
import { dayOfInstant } from '#lib/domain/day.ts'
import { mustBeAlone } from '#lib/domain/need.ts'
import { monthOf } from '#lib/domain/season.ts'
import { isFailure } from '#lib/kernel/failure.ts'
import { momentOf } from './about-casualty.ts'
import { readTrade } from './network.ts'

/** System: puts apart and together those in care whose season began or ended. How many there were. */
export async function followSeason(now: Date): Promise<number> {
  const grant = demand(systemActor('season began or ended'), 'system.run')
  const seasonal = await listSeasonal(grant)
  if (seasonal.length === 0) return 0
  const [trade, { zone }] = await Promise.all([readTrade(), momentOf(now)])
  const month = monthOf(dayOfInstant(now, zone))
  let changed = 0
  for (const { id, speciesSlug, age, isAlone } of seasonal) {
    const species = trade.speciesBySlug.get(speciesSlug)
    if (species === undefined || mustBeAlone({ species, age, month }) === isAlone) continue
    changed += await inEntry(
      grant,
      { now, action: 'season', subject: 'casualty', subjectId: id, columns: ['is_alone'] },
      async entry => {
        await setAlone(entry, id, !isAlone, now)
        return 1
      },
    ).catch(takenByAnother)
  }
  return changed
}

/** Another process has it in hand. */
function takenByAnother(thrown: unknown): number {
  if (isFailure(thrown) && thrown.code === 'conflict') return 0
  throw thrown
}
