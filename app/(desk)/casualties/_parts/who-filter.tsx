import { Actions, Button } from '#app/_ui/button.tsx'
import { SelectField, TextField } from '#app/_ui/field.tsx'
import { CARE_STAGES } from '#lib/domain/housing.ts'
import { LIST_KINDS, type ListKind, queryOf, type WhoIsWhereQuery } from '#lib/domain/who-is-where.ts'
import type { WhoIsWhere } from '#lib/service/who-is-where.ts'
import { paths } from '#lib/web/paths.ts'
import { stageWords } from '#lib/words/care.ts'
import { RELEASE } from '#lib/words/release.ts'
import { kindWords, WHO } from '#lib/words/who-is-where.ts'

/** Which animals, as words to follow; the other filters stay. */
export function WhoKinds({ asked }: { readonly asked: WhoIsWhereQuery }) {
  return (
    <nav aria-label={WHO.show}>
      <ul className="who-kinds">
        {LIST_KINDS.map(show => (
          <li key={show}>
            <a
              href={paths.casualties(queryOf({ ...asked, show, ...orderFor(show, asked) }))}
              aria-current={show === asked.show ? 'page' : undefined}
            >
              {kindWords(show)}
            </a>
          </li>
        ))}
        <li>
          <a href={paths.releases()}>{RELEASE.title}</a>
        </li>
      </ul>
    </nav>
  )
}

/** Closed cases begin with the newest; coming from them, the others begin by place again. */
function orderFor(show: ListKind, asked: WhoIsWhereQuery): Partial<WhoIsWhereQuery> {
  if (show === asked.show) return {}
  if (show === 'gone') return { order: 'since', down: true }
  return asked.show === 'gone' ? { order: 'place', down: false } : {}
}

/** A plain form that writes its answers into the address. */
export function WhoFilter({ list }: { readonly list: WhoIsWhere }) {
  const { asked, centres, groups } = list
  const isAsked = asked.centre ?? asked.group ?? asked.stage ?? asked.text
  const kept = { show: asked.show, order: asked.order, down: asked.down ? 'yes' : '' }
  return (
    <form className="who-filter" action={paths.casualties()} method="get">
      {Object.entries(kept).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <TextField name="text" label={WHO.text} hint={WHO.textHint} defaultValue={asked.text} type="search" />
      {centres.length > 1 && (
        <SelectField
          name="centre"
          label={WHO.centre}
          none={WHO.anyCentre}
          defaultValue={asked.centre}
          options={centres.map(({ id, name }) => ({ value: String(id), text: name }))}
        />
      )}
      <SelectField
        name="group"
        label={WHO.group}
        none={WHO.anyGroup}
        defaultValue={asked.group}
        options={groups.map(({ slug, name }) => ({ value: slug, text: name }))}
      />
      <SelectField
        name="stage"
        label={WHO.stage}
        none={WHO.anyStage}
        defaultValue={asked.stage}
        options={CARE_STAGES.map(stage => ({ value: stage, text: stageWords(stage) }))}
      />
      <Actions>
        <Button>{WHO.filter}</Button>
        {isAsked !== undefined && (
          <a className="btn plain" href={paths.casualties({ show: queryOf(asked)['show'] })}>
            {WHO.all}
          </a>
        )}
      </Actions>
    </form>
  )
}
