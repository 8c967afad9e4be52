import NextAuth from 'next-auth'
import { providerOptions } from '#lib/web/provider.ts'

type Context = { readonly params: Promise<{ nextauth: string[] }> }

function answer(request: Request, context: Context): Promise<Response> {
  return NextAuth(providerOptions())(request, context)
}

export { answer as GET, answer as POST }
