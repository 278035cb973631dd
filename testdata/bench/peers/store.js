// The store as it is set up at both ends: on disk, replicating over HTTP.
import http from 'pouchdb-adapter-http';
import leveldb from 'pouchdb-adapter-leveldb';
import PouchDB from 'pouchdb-core';
import mapreduce from 'pouchdb-mapreduce';
import replication from 'pouchdb-replication';

PouchDB.plugin(http).plugin(leveldb).plugin(mapreduce).plugin(replication);

/** Databases in a folder. */
export const storeIn = (folder) => PouchDB.defaults({ prefix: `${folder}/`, adapter: 'leveldb' });

/** A database on a server. */
export const remote = (address) => new PouchDB(address, { adapter: 'http' });
