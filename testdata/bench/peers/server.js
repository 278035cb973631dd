// The store's server, on a free port of this machine, which it prints. Asked by
// its parent it tells what went over its lines.
import express from 'express';
import expressPouchDB from 'express-pouchdb';
import { createServer } from 'node:http';

import { storeIn } from './store.js';

const app = express();
app.use('/', expressPouchDB(storeIn(process.argv[2]), { mode: 'minimumForPouchDB', inMemoryConfig: true, logPath: '/dev/null' }));
const bytes = { in: 0, out: 0 };
const open = new Set();
const count = (socket) => {
  bytes.in += socket.bytesRead;
  bytes.out += socket.bytesWritten;
};
const server = createServer(app);
server.on('connection', (socket) => {
  open.add(socket);
  socket.on('close', () => {
    open.delete(socket);
    count(socket);
  });
});
process.on('message', () => {
  const now = { ...bytes };
  for (const socket of open) {
    now.in += socket.bytesRead;
    now.out += socket.bytesWritten;
  }
  process.send(now);
});
server.listen(0, '127.0.0.1', () => process.send({ port: server.address().port }));
