"""Reads a grid's CSV and NetCDF with pandas, scipy and xarray and tells what they found, as JSON.

Called by gridReadBack.test.ts: python3 gridReadBack.py FILE.csv FILE.nc
"""

import json
import sys

import numpy as np
import pandas as pd
import xarray as xr
from scipy.io import netcdf_file

csv_path, nc_path = sys.argv[1:]


def listed(values):
    return [None if v is None or (isinstance(v, float) and np.isnan(v)) else v for v in np.asarray(values).tolist()]


table = pd.read_csv(csv_path, parse_dates=["time"], index_col="time")
csv = {
    "columns": list(table.columns),
    "zone": str(table.index.tz),
    "freq": pd.infer_freq(table.index[:50]),
    "first": table.index[0].isoformat(),
    "length": len(table),
    "dtypes": sorted({str(t) for t in table.dtypes}),
    "values": {name: listed(table[name].to_numpy()) for name in table.columns},
}

with netcdf_file(nc_path, "r", mmap=False) as f:
    text = lambda v: v.decode() if isinstance(v, bytes) else (v.tolist() if hasattr(v, "tolist") else v)
    scipy_side = {
        "version": int(f.version_byte),
        "dimensions": {k: int(v) for k, v in f.dimensions.items()},
        "attributes": {k: text(v) for k, v in f._attributes.items()},
        "variables": {
            name: {
                "dimensions": list(v.dimensions),
                "type": v.data.dtype.name,
                "attributes": {k: text(a) for k, a in v._attributes.items()},
            }
            for name, v in f.variables.items()
        },
        "rawPressure": f.variables["surface_air_pressure"].data[0, :].astype(float).tolist(),
        "names": [b"".join(row).rstrip(b"\0").decode() for row in f.variables["station_name"].data],
    }

with xr.open_dataset(nc_path, engine="scipy") as d:
    xarray_side = {
        "names": [str(v) for v in d.station_name.values],
        "titles": [str(v) for v in d.station_title.values],
        "coordinates": sorted(d.air_temperature.coords),
        "latitude": listed(d.latitude),
        "altitude": listed(d.altitude),
        "first": str(d.time.values[0]),
        "stepSeconds": float((d.time.values[1] - d.time.values[0]) / np.timedelta64(1, "s")),
        "bounds": [str(v) for v in d.time_bounds.values[1]],
        "values": {name: [listed(row) for row in d[name].values.astype(float)] for name in d.data_vars if name != "time_bounds"},
        # What a person would do with it next: a daily mean, by place.
        "dailyMean": listed(d.air_temperature.resample(time="1D").mean().values[0]),
        "spikes": int(((d.air_temperature_flag & 2) > 0).sum()),
    }

json.dump({"csv": csv, "scipy": scipy_side, "xarray": xarray_side}, sys.stdout)
