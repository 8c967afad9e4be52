/**
 * Numbers out of addresses. Promise: an address that names no row is nothing here (404), never a mistake of ours.
 */
import { notFound } from 'next/navigation'

/** A positive whole number from a part of the address. */
export function pageNumber(part: string): number {
  if (!/^[1-9]\d{0,9}$/.test(part)) notFound()
  return Number(part)
}
