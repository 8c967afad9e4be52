/**
 * What somebody types to sign in. The e-mail is compared in lower case; the password as it is.
 */
import { z } from 'zod'

/** Longer ones are refused before any hashing, so that nobody can make us work. */
const PASSWORD_LENGTH_MAX = 200
const EMAIL_LENGTH_MAX = 254

export const signInForm = z.object({
  email: z.string().trim().toLowerCase().min(1).max(EMAIL_LENGTH_MAX).meta({ title: 'E-mail' }),
  password: z.string().min(1).max(PASSWORD_LENGTH_MAX).meta({ title: 'Password' }),
})

/** Whoever lost her password types her e-mail alone. */
export const forgotForm = signInForm.pick({ email: true })
