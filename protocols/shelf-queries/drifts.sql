-- Where green's read noise rose by more than a tenth from one profile of a body to the next.
with course as (
  select p.body as body, f.iso as iso, p.profile as profile, f.value as value,
    cast(row_number() over (partition by p.body, f.iso order by p.created_utc, p.profile) as integer) as number
  from iso_figure f
  join profile p on p.profile = f.profile
  where f.figure = 'readNoiseElectron' and f.channel = 'G1' and f.value is not null
)
select b.maker as maker, b.model as model, b.serial_number as serial_number, later.iso as iso, later.profile as profile, later.value / earlier.value as rise
from course later
join course earlier on earlier.body = later.body and earlier.iso = later.iso and earlier.number = later.number - 1
join body b on b.body = later.body
where later.value > 1.1 * earlier.value
order by maker, model, serial_number, iso, profile
