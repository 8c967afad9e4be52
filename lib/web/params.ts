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
