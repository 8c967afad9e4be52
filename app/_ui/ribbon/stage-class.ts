/**
 * The CSS class that carries a stage's colour: `st-restricted` for "restricted activity".
 */
import type { CareStage } from '#lib/domain/housing.ts'

export function stageClass(stage: CareStage): string {
  return `st-${stage.split(' ')[0]}`
}
