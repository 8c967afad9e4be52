/**
 * What `npm run reproduce` answers: whether a learning run, learned again, is the same, and if not, what differs.
 */

const KEYS_SHOWN = 10

export type ReproducedFacts = {
  readonly run: number
  readonly versions: { readonly kept: string; readonly again: string }
  readonly areRecordsSame: boolean
  readonly otherKeys: readonly string[]
  readonly isDigestSame: boolean | null
  readonly again: readonly {
    readonly key: string
    readonly animals: number
    readonly stretch: { readonly mean: number }
    readonly lean: number
  }[]
}

/** The answer, a sentence a line. */
export function reproducedWords(facts: ReproducedFacts): string[] {
  const { run, versions, areRecordsSame, otherKeys, isDigestSame, again } = facts
  const isSame = otherKeys.length === 0 && isDigestSame !== false
  const [only] = isDigestSame === null ? again : []
  const what = only === undefined ? `Run ${run}` : `This stage of run ${run}`
  return [
    ...(only === undefined ? [] : [cellWords(only)]),
    `${what}, learned again, is ${isSame ? 'the same to the last bit' : 'not the same'}.`,
    ...(versions.kept === versions.again
      ? []
      : [`It was learned by the method "${versions.kept}"; this program has "${versions.again}".`]),
    ...(areRecordsSame ? [] : ['Other records went in: something that no entry keeps was changed since.']),
    ...(otherKeys.length > 0 ? [`Stages that differ: ${shown(otherKeys)}.`] : []),
    ...(otherKeys.length === 0 && isDigestSame === false
      ? ['The stages are the same; arrivals differ. Their usual year in setup is not kept with a run.']
      : []),
  ]
}

function cellWords({ key, animals, stretch, lean }: ReproducedFacts['again'][number]): string {
  const from = animals === 1 ? '1 animal' : `${animals} animals`
  return `${key}: ${stretch.mean.toFixed(2)} times the plan, from ${from}; dates lean on the plan by ${lean.toFixed(2)}.`
}

function shown(keys: readonly string[]): string {
  const more = keys.length - KEYS_SHOWN
  return [...keys.slice(0, KEYS_SHOWN), ...(more > 0 ? [`${more} more`] : [])].join(', ')
}

export const REPRODUCE_USAGE =
  'Say which run, and which stage of it if only one: npm run reproduce -- 7 "plan|1"'
export const NO_SUCH_RUN = 'No such run is kept, or it has no such stage.'
