// `npm run rooms`: draws the rooms and their imports as they are in the code.
import { writeFile } from 'node:fs/promises';
import { countRooms, drawRooms } from './rooms.ts';

const drawing = new URL('rooms.svg', import.meta.url);
await writeFile(drawing, await drawRooms(countRooms()));
console.log('test/structure/rooms.svg');
