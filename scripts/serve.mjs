// Serves the built app to this machine alone, on the given port or the next free one, and says where it is.
import { createReadStream, existsSync, statSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join, normalize } from "node:path";

const types = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json",
  ".svg": "image/svg+xml",
  ".webmanifest": "application/manifest+json",
};

/** The file of the folder that an address names; undefined for any other, and for an address that is none. */
function fileFor(folder, address) {
  try {
    const path = normalize(decodeURIComponent(new URL(address, "http://localhost").pathname));
    const file = join(folder, path.endsWith("/") ? `${path}index.html` : path);
    return file.startsWith(normalize(`${folder}/`)) && existsSync(file) && statSync(file).isFile() ? file : undefined;
  } catch {
    return undefined;
  }
}

/** Starts a server of one folder; gives it and its address. Tries twenty ports from the wanted one. */
export async function serve(folder, wanted = 4170) {
  const server = createServer((request, response) => {
    const file = fileFor(folder, request.url ?? "/");
    if (file === undefined) {
      response.writeHead(404, { "content-type": "text/plain" }).end("not found");
      return;
    }
    response.writeHead(200, {
      "content-type": types[extname(file)] ?? "application/octet-stream",
      "cache-control": "no-cache",
      "content-security-policy": "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' blob: data:",
    });
    createReadStream(file).pipe(response);
  });
  for (let port = wanted; ; port++) {
    try {
      await new Promise((resolve, reject) => {
        server.once("error", reject);
        server.listen(port, "127.0.0.1", resolve);
      });
      return { server, address: `http://127.0.0.1:${port}/` };
    } catch (error) {
      if (error.code !== "EADDRINUSE" || port - wanted >= 20) throw error;
    }
  }
}

if (process.argv[1] === import.meta.filename) {
  const { address } = await serve("dist/app", Number(process.argv[2] ?? 4170));
  console.log(`Faultwright is at ${address} for this machine alone; open it in a browser. Ctrl+C ends it.`);
}
