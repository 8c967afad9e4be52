import { EmptyState } from '#app/_ui/notice.tsx'
import { Answer } from '#app/_ui/section.tsx'
import { Shell } from '#app/_ui/shell.tsx'
import { paths } from '#lib/web/paths.ts'
import { NOTHING_SET_UP, WEEKS } from '#lib/words/weeks.ts'

/** Before a network is set up there is neither a zone nor a day to say. */
export function NoNetwork() {
  return (
    <Shell nav={[]} home={paths.front()} day="">
      <Answer reference={WEEKS.title} sentence={NOTHING_SET_UP.sentence} />
      <EmptyState sentence={NOTHING_SET_UP.sentence} coming={NOTHING_SET_UP.coming} />
    </Shell>
  )
}
