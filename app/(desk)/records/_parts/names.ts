import type { StageSaid } from '#lib/service/records.ts'
import { stageWords } from '#lib/words/care.ts'
import { admittedWords, planName } from '#lib/words/records.ts'
import { severityWords, treatmentWords } from '#lib/words/setup-plan.ts'

/** "Overwintering, admitted in autumn". */
export function stageName({ estimate, season }: StageSaid): string {
  return [stageWords(estimate.stage), admittedWords(season)].filter(Boolean).join(', ')
}

/** Which animals its plans are for; the plans' own keys where setup has them no more. */
export function planWords({ conditions, plans, planIds }: StageSaid, isMixed: boolean): string {
  const name =
    plans.length === 0
      ? planIds.join(' and ')
      : planName(
          plans.map(({ planGroup, severity, treatment }) => ({
            group: planGroup,
            how: `${severityWords(severity)}, ${treatmentWords(treatment)}`,
          })),
        )
  return isMixed ? `${conditions.join(' and ')}: ${name}` : name
}
