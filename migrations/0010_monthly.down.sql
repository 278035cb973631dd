DROP TABLE monthly, monthly_bins;
