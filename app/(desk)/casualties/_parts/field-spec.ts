import type { SelectOption } from '#app/_ui/field.tsx'

type Common = {
  readonly name: string
  readonly label: string
  readonly hint?: string | undefined
  readonly start?: string | undefined
}

/** One field of a form of the card, as plain data that goes to the browser. */
export type FieldSpec =
  | ({ readonly kind: 'text' | 'words' | 'time' | 'date' } & Common)
  | ({ readonly kind: 'number'; readonly unit?: string } & Common)
  | ({ readonly kind: 'picture' } & Common)
  | ({
      readonly kind: 'select'
      readonly options: readonly SelectOption[]
      readonly none?: string | undefined
    } & Common)
  | ({
      readonly kind: 'one' | 'many'
      readonly choices: readonly { readonly value: string; readonly label: string }[]
      readonly columns?: 1 | 2 | 'row'
    } & Common)
  | {
      readonly kind: 'two'
      readonly name: string
      readonly legend: string
      readonly fields: readonly FieldSpec[]
    }
