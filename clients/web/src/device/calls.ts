import { createClient, type Client, type Interceptor } from '@connectrpc/connect';
import { createConnectTransport } from '@connectrpc/connect-web';

import { AccountService } from '../gen/freshet/v1/account_service_pb';
import { AnalysisService } from '../gen/freshet/v1/analysis_service_pb';
import { PoolService } from '../gen/freshet/v1/pool_service_pb';
import { SyncService } from '../gen/freshet/v1/sync_service_pb';

/** The calls of a cooperative's server. */
export interface Calls {
  account: Client<typeof AccountService>;
  sync: Client<typeof SyncService>;
  analysis: Client<typeof AnalysisService>;
  pool: Client<typeof PoolService>;
}

/** How long a call may take, ms. */
export const callMs = 30_000;

/** Calls of the server at an origin, with a token where there is one. */
export function callsOf(address: string, token: string): Calls {
  const bearing: Interceptor = (next) => (request) => {
    if (token !== '') request.header.set('authorization', 'Bearer ' + token);
    return next(request);
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
    analysis: createClient(AnalysisService, transport),
    pool: createClient(PoolService, transport),
  };
}
