/**
 * Between what people type and typed values, both ways: one codec a kind of field.
 * Promise: decode(encode(value)) is the value, so a form's defaults, an export and an import never drift. Text is
 * trimmed; an empty field is an absent value, never a zero. A comma serves as decimal point.
 */
import { z } from 'zod'
import { dateOfDay, dayOfDate, dayOfInstant } from './day.ts'
import { instantOfMinute, MINUTES_PER_DAY, minuteOfDay } from './hours.ts'

const typed = z.string().trim()

/** Text of a form; nothing typed is "missing", anything else that does not read is what the field wants. */
function written(pattern: RegExp, rule: string) {
  return typed.superRefine((text, context) => {
    if (!pattern.test(text)) {
      context.addIssue({ code: 'custom', input: text, params: { rule: text === '' ? 'missing' : rule } })
    }
  })
}

/** A whole number, "12". */
export const integerText = z.codec(written(/^[-+]?\d{1,15}$/, 'not-int'), z.int(), {
  decode: text => Number(text),
  encode: number => String(number),
})

/** A number, "0.5" or "0,5". */
export const decimalText = z.codec(written(/^[-+]?\d{1,15}([.,]\d{1,20})?$/, 'not-number'), z.number(), {
  decode: text => Number(text.replace(',', '.')),
  encode: number => String(number),
})

/** A ticked box sends "on"; one that is not ticked sends nothing. */
export const checkboxText = z.codec(z.enum(['on', '']).default(''), z.boolean(), {
  decode: text => text === 'on',
  encode: is => (is ? 'on' : ''),
})

/** A civil date, "2026-11-26". */
export const plainDateText = z.codec(written(/^\d{4}-\d{2}-\d{2}$/, 'not-date'), z.string(), {
  decode: (text, context) => {
    if (!isDate(text)) {
      context.issues.push({ code: 'invalid_format', format: 'date', input: text })
      return z.NEVER
    }
    return text
  },
  encode: date => date,
})

/** A minute of the day, "08:00" to "24:00". */
export const clockText = z.codec(
  written(/^([01]?\d|2[0-3]):[0-5]\d$|^24:00$/, 'not-time'),
  z.int().min(0).max(MINUTES_PER_DAY),
  {
    decode: text => Number(text.split(':')[0]) * 60 + Number(text.split(':')[1]),
    encode: minute =>
      `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`,
  },
)

/** An instant written as the wall clock of a zone, "2026-11-26T08:00"; a minute that comes twice is the first. */
export function localDateTimeText(zone: string) {
  return z.codec(written(/^\d{4}-\d{2}-\d{2}T([01]\d|2[0-3]):[0-5]\d$/, 'not-date'), z.date(), {
    decode: (text, context) => {
      const [date = '', clock = ''] = text.split('T')
      if (!isDate(date)) {
        context.issues.push({ code: 'invalid_format', format: 'date', input: text })
        return z.NEVER
      }
      return instantOfMinute(dayOfDate(date), z.decode(clockText, clock), zone)
    },
    encode: at => `${dateOfDay(dayOfInstant(at, zone))}T${z.encode(clockText, minuteOfDay(at, zone))}`,
  })
}

/** Several words in one cell, "pigeon; wood pigeon". */
export const listText = z.codec(typed, z.array(z.string()), {
  decode: text =>
    text
      .split(';')
      .map(word => word.trim())
      .filter(word => word !== ''),
  encode: words => words.join('; '),
})

/** A field that may be left empty: nothing typed is null. */
export function blankable<T>(codec: z.ZodType<T, string>) {
  return z.codec(z.string().default(''), codec.nullable(), {
    decode: text => (text.trim() === '' ? null : text.trim()),
    encode: text => text ?? '',
  })
}

/** A field that a form may leave out or leave empty: absent text is null, other text is trimmed and limited. */
export function optionalText(max: number) {
  return z.codec(z.string().default(''), z.string().max(max).nullable(), {
    decode: text => (text.trim() === '' ? null : text.trim()),
    encode: text => text ?? '',
  })
}

function isDate(text: string): boolean {
  const ms = Date.parse(`${text}T00:00:00Z`)
  return !Number.isNaN(ms) && new Date(ms).toISOString().startsWith(text)
}
