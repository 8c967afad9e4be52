import { Actions, ButtonLink } from '#app/_ui/button.tsx'
import { EmptyState } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { type Column, DataTable } from '#app/_ui/table.tsx'
import { emptyWords } from '#lib/words/setup-page.ts'

type Props<Row> = {
  readonly head: string
  /** "centres", for the empty list. */
  readonly several: string
  readonly rows: readonly Row[]
  readonly keyOf: (row: Row) => string
  readonly columns: readonly Column<Row>[]
  /** The link that adds one; nothing for who may not. */
  readonly add?: { readonly href: string; readonly text: string } | undefined
}

/** A list of setup with the one button that adds to it. */
export function SetupList<Row>({ head, several, rows, keyOf, columns, add }: Props<Row>) {
  return (
    <Section id="list" head={head} strong>
      {add !== undefined && (
        <div className="list-do">
          <Actions>
            <ButtonLink weight="filled" href={add.href}>
              {add.text}
            </ButtonLink>
          </Actions>
        </div>
      )}
      {rows.length === 0 ? (
        <EmptyState {...emptyWords(several)} />
      ) : (
        <DataTable caption={head} hideCaption rows={rows} keyOf={keyOf} columns={columns} />
      )}
    </Section>
  )
}
