-- | A timetable of the invented ferry: "quotes" and (brackets) are no code here.
module Harbour.Ferry (Timetable (..), after, main) where

import Data.List (intercalate, sortOn)
import qualified Data.Map.Strict as Map

{- A comment {- with another inside -}
   over two lines. -}
data Timetable = Timetable
  { sailings :: Map.Map String [Int]
  , name     :: !String
  } deriving (Eq, Show)

greeting :: String
greeting = "On board, \"please\" -- mind the gap"

after :: String -> Int -> Timetable -> [Int]
after pier hour table =
  [ s | s <- Map.findWithDefault [] pier (sailings table), s `div` 60 >= hour, s `mod` 60 /= 59 ]

describe' :: Timetable -> String
describe' t = name t ++ ": " ++ intercalate ", " (map show' (Map.toList (sailings t)))
  where
    show' (k, v) = k ++ ('=' : show (sortOn negate v))

main :: IO ()
main = do
  let t = Timetable (Map.fromList [("east", [360, 420]), ("west", [])]) "invented"
  putStrLn $ describe' t
  mapM_ print (after "east" 6 t) >> putStrLn greeting
  if null (after "west" 6 t) then return () else putStrLn "late"
