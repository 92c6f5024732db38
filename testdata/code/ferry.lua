-- A timetable of the invented ferry: "quotes" and (brackets) here are no code.
local Timetable = {}
Timetable.__index = Timetable

--[[ A long comment { with } braces
     over two lines. ]]
local GREETING = "On board, \"please\" -- mind the gap"

function Timetable.new(sailings, name)
  return setmetatable({ sailings = sailings or {}, name = name or 'ferry' }, Timetable)
end

function Timetable:after(pier, hour)
  local out = {}
  for _, s in ipairs(self.sailings[pier] or {}) do
    if s // 60 >= hour and s % 60 ~= 59 then
      out[#out + 1] = s
    end
  end
  return out
end

function Timetable:__tostring()
  return self.name .. ": " .. table.concat(self:after("east", 6), ", ")
end

local t = Timetable.new({ east = { 360, 420 }, ["west pier"] = {} })
print(tostring(t), #t.sailings.east, GREETING)
while t.sailings.east[1] ~= nil do
  table.remove(t.sailings.east, 1)
end
