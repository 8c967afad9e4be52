import { Facts, Section } from '#app/_ui/section.tsx'
import { SETUP_PAGE } from '#lib/words/setup-page.ts'
import type { FieldSpec, Part } from './spec.ts'

/** What is set up, for people who may read it and not change it. */
export function PartsAsFacts({ parts }: { readonly parts: readonly Part[] }) {
  return parts.map((part, at) => (
    <Section
      key={part.id}
      id={part.id}
      head={part.head}
      {...(part.note !== undefined && { note: part.note })}
      strong={at === 0}
    >
      <Facts
        facts={part.fields
          .map(spec => ({ term: spec.label, value: wordsOf(spec) }))
          .filter(fact => fact.value !== undefined)}
      />
    </Section>
  ))
}

function wordsOf(spec: FieldSpec): string | undefined {
  switch (spec.kind) {
    case 'text':
      if (spec.type === 'password') return undefined
      return spec.start === '' ? SETUP_PAGE.notSaid : [spec.start, spec.unit ?? ''].join(' ').trim()
    case 'area':
      return spec.start === '' ? SETUP_PAGE.notSaid : spec.start
    case 'tick':
      return spec.start ? SETUP_PAGE.yes : SETUP_PAGE.no
    case 'select':
      return spec.options.find(option => option.value === spec.start)?.text ?? spec.none ?? SETUP_PAGE.notSaid
    case 'choices': {
      const chosen = spec.choices.filter(choice => spec.start.includes(choice.value))
      return chosen.length === 0 ? SETUP_PAGE.none : chosen.map(choice => choice.label).join(', ')
    }
    case 'boxes': {
      const filled = spec.boxes.filter(box => box.start !== '')
      const unit = spec.unit === undefined ? '' : `\u00a0${spec.unit}`
      return filled.length === 0
        ? SETUP_PAGE.none
        : filled.map(box => `${box.label}: ${box.start}${unit}`).join(', ')
    }
    case 'rows': {
      const lines = spec.start.map(row =>
        spec.cells
          .map(cell => {
            const typed = row[cell.key] ?? ''
            return cell.options?.find(option => option.value === typed)?.text ?? typed
          })
          .filter(word => word !== '')
          .join(' '),
      )
      return lines.length === 0 ? SETUP_PAGE.none : lines.join('; ')
    }
  }
}
