import NextAuth from 'next-auth'
import { authOptions } from '#lib/web/auth-options.ts'

type Context = { readonly params: Promise<{ nextauth: string[] }> }

function answer(request: Request, context: Context): Promise<Response> {
  return NextAuth(authOptions())(request, context)
}

export { answer as GET, answer as POST }
