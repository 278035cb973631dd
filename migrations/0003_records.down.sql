DROP TABLE cooperatives, members, sites, systems, vessels, beds, equipment, cohorts, plantings, feeds, species, crops, remedies, plans, trials;
