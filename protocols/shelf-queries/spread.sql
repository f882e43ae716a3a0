-- What bodies of a model differ by in read noise, each by its newest profile.
select b.maker as maker, b.model as model, f.iso as iso, f.channel as channel,
  count(*) as bodies, avg(f.value) as mean_electron, stddev_samp(f.value) as deviation_electron
from iso_figure f
join profile p on p.profile = f.profile
join body b on b.body = p.body
join (select body, max(created_utc) as newest from profile group by body) n on n.body = p.body and n.newest = p.created_utc
where f.figure = 'readNoiseElectron' and f.value is not null
group by b.maker, b.model, f.iso, f.channel
having count(*) > 1
order by maker, model, iso, channel
