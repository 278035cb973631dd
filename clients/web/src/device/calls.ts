import { createClient, type Client, type Interceptor } from '@connectrpc/connect';
import { createConnectTransport } from '@connectrpc/connect-web';

import { AccountService } from '../gen/freshet/v1/account_service_pb';
import { PhotoService } from '../gen/freshet/v1/photo_service_pb';
import { PoolService } from '../gen/freshet/v1/pool_service_pb';
import { SyncService } from '../gen/freshet/v1/sync_service_pb';
import { understand } from './trouble';

/** The calls of a cooperative's server. */
export interface Calls {
  account: Client<typeof AccountService>;
  sync: Client<typeof SyncService>;
  pool: Client<typeof PoolService>;
  photo: Client<typeof PhotoService>;
}

/** How long a call may take, ms. */
export const callMs = 30_000;

/** Who calls: its token, and another in the place of one that the server knows no more; undefined where there is none to be had. */
export interface Bearer {
  token(): Promise<string>;
  renew(used: string): Promise<string | undefined>;
}

/** Calls of the server at an origin, by somebody or by nobody known. */
export function callsOf(address: string, bearer?: Bearer): Calls {
  const bearing: Interceptor = (next) => async (request) => {
    if (!bearer) return next(request);
    const token = await bearer.token();
    request.header.set('authorization', 'Bearer ' + token);
    try {
      return await next(request);
    } catch (error) {
      if (understand(error).reason !== 'UNAUTHENTICATED') throw error;
      const another = await bearer.renew(token);
      if (another === undefined) throw error;
      request.header.set('authorization', 'Bearer ' + another);
      return next(request);
    }
  };
  const transport = createConnectTransport({
    baseUrl: address,
    useBinaryFormat: true,
    interceptors: [bearing],
    // The copy is kept here, not in the browser's cache; cookies are not used.
    fetch: (input, init) => fetch(input, { ...init, cache: 'no-store', credentials: 'omit' }),
  });
  return {
    account: createClient(AccountService, transport),
    sync: createClient(SyncService, transport),
    pool: createClient(PoolService, transport),
    photo: createClient(PhotoService, transport),
  };
}
