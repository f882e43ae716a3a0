@echo off
chcp 65001 >nul
title SensorLab
set "PATH=%~dp0;%PATH%"
"%~dp0sensorlab.exe" --help
echo.
echo This window knows the word sensorlab. cd takes you to your frames, "sensorlab characterise --help" tells what it asks for.
rem Without a console to type in, as in a test, there is nobody to end the bench.
timeout /t 0 >nul 2>&1 || goto :window
echo The bench opens in your browser; Ctrl-C ends it and leaves you this window.
"%~dp0sensorlab.exe" bench
:window
cmd /k
