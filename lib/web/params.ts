/**
 * Numbers out of addresses. Promise: an address that names no row is nothing here (404), never a mistake of ours.
 */
import { notFound } from 'next/navigation'

/** A positive whole number from a part of the address. */
export function pageNumber(part: string): number {
  if (!/^[1-9]\d{0,9}$/.test(part)) notFound()
  return Number(part)
}

/** One word of a query; nothing where it was left out or said several times. */
export function pageWord(value: string | string[] | undefined): string | undefined {
  return typeof value === 'string' && value !== '' ? value : undefined
}

/** A positive whole number of a query; nothing where it is none. */
export function queryNumber(value: string | string[] | undefined): number | undefined {
  return typeof value === 'string' && /^[1-9]\d{0,8}$/.test(value) ? Number(value) : undefined
}

export type Span = { readonly page: number; readonly skip: number; readonly take: number }

const ROWS_PER_PAGE = 50
const PAGES_SHOWN_EACH_SIDE = 4

/** Which rows of a long list a page of it shows. */
export function listSpan(page: string | string[] | undefined): Span {
  const number = queryNumber(page) ?? 1
  return { page: number, skip: (number - 1) * ROWS_PER_PAGE, take: ROWS_PER_PAGE }
}

/** The links to the other pages of a list, those near this one. */
export function pageLinks(span: Span, total: number, hrefOf: (page: number) => string) {
  const last = Math.max(1, Math.ceil(total / span.take))
  const first = Math.max(1, span.page - PAGES_SHOWN_EACH_SIDE)
  const until = Math.min(last, span.page + PAGES_SHOWN_EACH_SIDE)
  return {
    from: total === 0 ? 0 : Math.min(span.skip + 1, total),
    to: Math.min(span.skip + span.take, total),
    total,
    pages: Array.from({ length: until - first + 1 }, (_, at) => first + at).map(number => ({
      number,
      href: hrefOf(number),
      isCurrent: number === span.page,
    })),
  }
}
