import type { ReactNode } from 'react'
import { requireActor } from '#lib/web/session.ts'

/** Everything behind the sign-in page. Each page draws its own frame and asks for its own permission. */
export default async function DeskLayout({ children }: { readonly children: ReactNode }) {
  await requireActor()
  return children
}
