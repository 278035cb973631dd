DROP TABLE sharings, invitations, devices, account_sites, accounts, server_state;
