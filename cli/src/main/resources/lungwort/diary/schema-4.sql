-- A number of sounds that none counts of is no longer told of recordings unlike what the model learnt from, nor of those with hardly a whole breath: kept numbers of these are computed anew.
update examination set measures_json = null
    where examination_json like '%sounds unlike nearly all that the model learnt from%' or examination_json like '%"too-few-breaths"%';
