-- The usable latitude of every profile: stops from where SNR falls to 10 up to the clip. Bounds are passed over.
select b.maker as maker, b.model as model, b.serial_number as serial_number, above.profile as profile, above.iso as iso,
  above.value as above_ev, below.value as below_ev, above.value + below.value as latitude_ev
from iso_figure above
join iso_figure below on below.profile = above.profile and below.iso = above.iso
join profile p on p.profile = above.profile
join body b on b.body = p.body
where above.figure = 'aboveEv' and above.channel is null and above.value is not null
  and below.figure = 'belowEv.snr10.perPixel' and below.channel is null and below.value is not null
order by maker, model, serial_number, profile, iso
