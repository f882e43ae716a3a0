-- Levels alone: the slope of temporal variance over signal, 1/gain in DN a electron as a straight line through all levels that
-- served the fit sees it. The profile's own gain weighs the levels and is the better one.
select l.profile as profile, l.iso as iso, l.channel as channel, count(*) as levels,
  covar_pop(l.temporal_variance_dn2, l.mean_dn) / var_pop(l.mean_dn) as dn_per_electron
from level l
where l.used_in_fit = 1 and l.temporal_variance_dn2 is not null
group by l.profile, l.iso, l.channel
having count(*) > 2
order by profile, iso, channel
