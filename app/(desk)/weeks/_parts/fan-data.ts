import type { FanData } from '#app/_ui/fan/fan-data.ts'
import type { FanShown } from '#lib/service/weeks-view.ts'
import { WEEKS } from '#lib/words/weeks.ts'

/** The picture's data: what is counted is enclosures that are wanted. */
export function fanData(fan: FanShown): FanData {
  return { ...fan, noun: WEEKS.fanNoun }
}
