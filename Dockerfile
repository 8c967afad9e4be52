# The newest long-term Node; the build runs where the image is made and needs no database.
FROM node:24-bookworm-slim AS build
WORKDIR /app
COPY package.json package-lock.json .npmrc ./
RUN npm ci --include=dev
COPY . .
RUN npm run build

# Brings the database to the newest schema, then ends: `docker compose run --rm migrate`.
FROM build AS migrate
ENV NODE_ENV=production
USER node
CMD ["node", "--import", "tsx", "prisma/migrate.ts"]

# Learns from the records in the background; the pages show what it published.
FROM build AS worker
ENV NODE_ENV=production
USER node
CMD ["node", "--conditions=react-server", "--import", "tsx", "lib/jobs/main.ts"]

FROM node:24-bookworm-slim AS app
WORKDIR /app
ENV NODE_ENV=production NEXT_TELEMETRY_DISABLED=1 HOSTNAME=0.0.0.0 PORT=3000
COPY --from=build --chown=node:node /app/.next/standalone ./
USER node
EXPOSE 3000
CMD ["node", "server.js"]
