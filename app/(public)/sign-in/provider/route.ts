import { redirect } from 'next/navigation'
import { paths } from '#lib/web/paths.ts'
import { leaveForProvider, providerName } from '#lib/web/provider.ts'

/** A link, not a form: it leads to another site, which a form of ours may not. */
export async function GET(request: Request): Promise<Response> {
  if (providerName() === undefined) return redirect(paths.signIn())
  return leaveForProvider(new URL(request.url).searchParams.get('to'))
}
