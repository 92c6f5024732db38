# A timetable of the invented ferry: "quotes" and (brackets) here are no code.
require "set"

module Harbour
  GREETING = 'On board, please # mind the gap'

  class Timetable
    attr_reader :sailings, :name

    def initialize(sailings = {}, name: "ferry")
      @sailings = sailings
      @name = name
    end

    def after(pier, hour)
      return [] unless @sailings.key?(pier)

      @sailings[pier].select { |s| s / 60 >= hour && s % 60 != 59 }
    end

    def to_s
      "#{@name}: #{@sailings.map { |k, v| "#{k}=#{v.join(", ")}" }.join("; ")}"
    end

    def ==(other)
      other.is_a?(Timetable) && other.sailings == @sailings
    end
  end
end

=begin
A block comment with "quotes".
=end
table = Harbour::Timetable.new({ "east" => [360, 420], west: [] }, name: "invented")
puts table if table.to_s =~ /fer+y/i || table.after("east", 6).any?(&:even?)
$stderr.puts "none" unless table.sailings[:west]&.first
