import type { Metadata } from 'next'
import { Actions, ButtonLink } from '#app/_ui/button.tsx'
import { may } from '#lib/authz/demand.ts'
import { listClosures } from '#lib/service/setup/closure.ts'
import { load } from '#lib/web/load.ts'
import { currentDay } from '#lib/web/network.ts'
import { paths } from '#lib/web/paths.ts'
import { requireActor } from '#lib/web/session.ts'
import { SETUP } from '#lib/words/setup.ts'
import { CLOSURE_PAGE } from '#lib/words/setup-form.ts'
import { addWords, listAnswer } from '#lib/words/setup-page.ts'
import { SetupFrame } from '../_parts/frame.tsx'
import { ClosureTable } from './_parts/closure-table.tsx'

export const metadata: Metadata = { title: SETUP.closures }

export default async function ClosuresPage() {
  const [actor, { now, zone }] = await Promise.all([requireActor(), currentDay()])
  const { open, over } = await load(listClosures(actor, now))
  const sentence =
    open.length === 0 ? CLOSURE_PAGE.noneOpen : listAnswer(open.length, 0, 'closure', 'closures')
  return (
    <SetupFrame noun="closures" sentence={sentence}>
      {may(actor, 'setup.closures') && (
        <div className="list-do">
          <Actions>
            <ButtonLink weight="filled" href={paths.setupNew('closures')}>
              {addWords('a closure')}
            </ButtonLink>
          </Actions>
        </div>
      )}
      <ClosureTable
        id="open"
        head={CLOSURE_PAGE.open}
        rows={open}
        zone={zone}
        empty={{ sentence: CLOSURE_PAGE.noneOpen, coming: CLOSURE_PAGE.noneOpenComing }}
        strong
      />
      <ClosureTable
        id="over"
        head={CLOSURE_PAGE.over}
        rows={over}
        zone={zone}
        empty={{ sentence: CLOSURE_PAGE.noneOver, coming: CLOSURE_PAGE.noneOverComing }}
      />
    </SetupFrame>
  )
}
