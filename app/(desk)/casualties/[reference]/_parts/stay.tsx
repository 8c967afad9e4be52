import { EmptyState } from '#app/_ui/notice.tsx'
import { StayRibbon, weakestOf } from '#app/_ui/ribbon/stay-ribbon.tsx'
import { Section } from '#app/_ui/section.tsx'
import { Act } from '#app/(desk)/casualties/_parts/act.tsx'
import type { CasualtyCard } from '#lib/service/casualty.ts'
import { CARD } from '#lib/words/casualty.ts'
import { CHANGE, readyTo, wentOnTo } from '#lib/words/casualty-change.ts'
import { outcomeWords } from '#lib/words/outcome.ts'
import { RIBBON_WORDS, weakestWords } from '#lib/words/ribbon.ts'
import { ready, wentOn } from '../../actions.ts'
import { hiddenOf, whenFields } from './act-fields.ts'
import { VetWord } from './vet-word.tsx'

const AS_GOOD_AS_SURE = 0.975

/** The ribbon of the whole stay, and what moves it on: ready, and gone on, as two facts. */
export function Stay({ card }: { readonly card: CasualtyCard }) {
  const { ribbon, now } = card
  const weakest = ribbon && weakestOf(ribbon)
  return (
    <Section
      id="stay"
      head={CARD.stay}
      note={
        weakest === undefined || weakest.chance >= AS_GOOD_AS_SURE
          ? undefined
          : weakestWords(weakest.stage, weakest.chance)
      }
      strong
    >
      {ribbon === undefined ? (
        <EmptyState sentence={CARD.noStay} coming={CARD.noStayComing} />
      ) : (
        <>
          <StayRibbon
            data={ribbon}
            axis={ribbon.axis}
            size="casualty"
            {...(now.outcome !== null && { endWord: outcomeWords(now.outcome).toLowerCase() })}
          />
          <p className="card-key">
            {RIBBON_WORDS.howToRead} {RIBBON_WORDS.ifItLives}
          </p>
        </>
      )}
      <VetWord card={card} />
      {card.can.record && now.keeper !== 'nobody' && <OnwardActs card={card} />}
    </Section>
  )
}

function OnwardActs({ card }: { readonly card: CasualtyCard }) {
  const { stageNow, plan } = card
  if (stageNow === undefined || plan === undefined) return null
  const { stage, next, readyAt, beganOn } = stageNow
  const hidden = hiddenOf(card)
  const first = beganOn === null ? stage : next
  return (
    <div className="acts">
      {readyAt === null && card.now.keeper === 'centre' && (
        <Act
          id="ready"
          action={ready}
          title={readyTo(stage.stage, next === undefined)}
          submit={CHANGE.record}
          hidden={{ ...hidden, stageNo: String(stage.no) }}
          fields={whenFields('at')}
        />
      )}
      {first !== undefined && (
        <Act
          id="went-on"
          action={wentOn}
          title={wentOnTo(first.stage)}
          submit={CHANGE.record}
          hidden={hidden}
          fields={[
            {
              kind: 'select',
              name: 'stageNo',
              label: CHANGE.stage,
              start: String(first.no),
              options: plan.stages.map(one => ({ value: String(one.no), text: wentOnTo(one.stage) })),
            },
            ...whenFields('at'),
          ]}
        />
      )}
    </div>
  )
}
