import { checkSock } from './check-sock.ts';
import type { SockFile } from './sock-file.ts';
import { SOCK_FILE_VERSION } from './sock-schema.ts';

/**
 * A sock as the text of its file: fields always in the same order, with the version, so that equal
 * socks are equal texts and `readSock` gives the sock back. Throws when it is no sock (our bug).
 */
export function writeSock(file: Readonly<SockFile>): string {
  const { file: ordered, problems } = checkSock({ ...file, heelwright: SOCK_FILE_VERSION });
  if (ordered === null) throw new Error(`not a sock file: ${problems.map((problem) => problem.message).join(' ')}`);
  return `${JSON.stringify(ordered, null, 2)}\n`;
}
