import type { ReactNode } from 'react'
import { Shell } from '#app/_ui/shell.tsx'
import { isDemo } from '#lib/web/demo.ts'
import { currentDay } from '#lib/web/network.ts'
import { paths } from '#lib/web/paths.ts'
import { clockTime, weekdayDate } from '#lib/words/dates.ts'

/** The frame of the pages that need no session. */
export async function PublicPage({ children }: { readonly children: ReactNode }) {
  const { now, today, zone } = await currentDay()
  return (
    <Shell
      nav={[]}
      home={paths.front()}
      day={`${weekdayDate(today)}, ${clockTime(now, zone)}`}
      demo={isDemo()}
    >
      {children}
    </Shell>
  )
}
