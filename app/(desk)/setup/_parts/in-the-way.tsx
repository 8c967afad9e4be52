import type { ReactNode } from 'react'
import { z } from 'zod'
import type { InTheWay } from '#lib/domain/occupant.ts'
import type { FormState } from '#lib/web/form-state.ts'
import { paths } from '#lib/web/paths.ts'

const lines: z.ZodType<InTheWay[]> = z.array(z.object({ reference: z.string(), say: z.string() }))

/** Who stands in the way of a change, each a link, and what to do about it; nothing where nobody does. */
export function inTheWay(state: FormState): ReactNode | undefined {
  const named = lines.safeParse(state.data?.['inTheWay'])
  if (!named.success) return undefined
  return (
    <>
      <ul className="lines">
        {named.data.map(({ reference, say }) => (
          <li key={`${reference} ${say}`}>
            <a href={paths.casualty(reference)}>{reference}</a>, {say}
          </li>
        ))}
      </ul>
      {state.next !== undefined && <p>{state.next}</p>}
    </>
  )
}
