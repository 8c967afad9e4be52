/**
 * Whole addresses for mails and for handing over.
 * Promise: made of the address that the installation is set up with, never of what a request says its host is.
 */
import 'server-only'
import { env } from '#lib/env.ts'
import { paths } from './paths.ts'

/** The address of a driver's link. */
export function driveLinkUrl(token: string): string {
  return new URL(paths.drive(token), env().NEXTAUTH_URL).href
}

/** The address of a link that sets a password. */
export function passwordLinkUrl(token: string): string {
  return new URL(paths.passwordLink(token), env().NEXTAUTH_URL).href
}

/** The address of an animal, for its cage card; whoever opens it signs in first. */
export function casualtyUrl(reference: string): string {
  return new URL(paths.casualty(reference), env().NEXTAUTH_URL).href
}
