/**
 * What every form of setup sends beside its own fields: the version it was filled in over, and the switch.
 */
import { z } from 'zod'
import { integerText } from './text.ts'

export const versionForm = z.object({ version: integerText.pipe(z.int().positive()) })

/** Switching on or off: nothing is deleted. */
export const switchForm = versionForm.extend({
  isActive: z.enum(['on', 'off']).transform(to => to === 'on'),
})
