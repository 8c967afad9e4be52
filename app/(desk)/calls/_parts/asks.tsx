import { Notice } from '#app/_ui/notice.tsx'
import { Section } from '#app/_ui/section.tsx'
import { AskLines } from '#app/(desk)/asks/_parts/ask-lines.tsx'
import type { AskDesk } from '#lib/service/ask.ts'
import { ASK } from '#lib/words/ask.ts'

type Props = { readonly asks: AskDesk; readonly now: Date; readonly zone: string }

/** Calls to centres and practices that wait for an answer, and how the last ones ended. */
export function Asks({ asks: { open, lately }, now, zone }: Props) {
  const due = open.filter(({ lapsesAt }) => lapsesAt !== null && lapsesAt <= now)
  return (
    <>
      <Section id="asks" head={ASK.title} note={ASK.note}>
        {due.length > 0 && <Notice kind="working" sentence={ASK.moving} />}
        <AskLines
          asks={open}
          caption={ASK.title}
          empty={{ sentence: ASK.none, coming: ASK.noneComing }}
          now={now}
          zone={zone}
        />
      </Section>
      {lately.length > 0 && (
        <Section id="asks-lately" head={ASK.lately}>
          <AskLines
            asks={lately}
            caption={ASK.lately}
            empty={{ sentence: ASK.none, coming: ASK.noneComing }}
            now={now}
            zone={zone}
          />
        </Section>
      )}
    </>
  )
}
