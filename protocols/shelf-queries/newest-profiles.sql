-- The newest profile of every body. Profiles without a time are passed over.
select b.maker as maker, b.model as model, b.serial_number as serial_number, p.firmware as firmware, p.profile as profile, p.isos as isos
from profile p
join body b on b.body = p.body
join (select body, max(created_utc) as newest from profile group by body) n on n.body = p.body and n.newest = p.created_utc
order by maker, model, serial_number, profile
